package rampwright.app.usecase;

import java.io.IOException;
import java.util.Optional;
import rampwright.acquisition.device.DeviceSet;
import rampwright.acquisition.record.LiveView;
import rampwright.acquisition.record.RecordPlan;
import rampwright.acquisition.record.RecordedTrial;
import rampwright.acquisition.record.TrialSession;

/** A recording under way. */
public final class Recording {
  private final RecordPlan plan;
  private final TrialSession session;
  private final DeviceSet devices;

  Recording(RecordPlan plan, DevicePorts ports) {
    this.plan = plan;
    this.session = new TrialSession(plan, ports.time());
    this.devices =
        new DeviceSet(plan.maps(), ports.links(), ports.time(), session, DeviceSet.RECORD_DELAY_NS);
    devices.start();
  }

  /** How it stands; also looks whether its longest time is over. */
  public LiveView view() {
    session.tick();
    return session.view();
  }

  public boolean isEnded() {
    return session.isEnded();
  }

  /** Begins with the next reading. */
  public void beginNow() {
    session.beginNow();
  }

  /** Ends; what was recorded is kept. */
  public void end(String why) {
    session.endNow(why);
  }

  /**
   * Lets the devices go and makes the trial whole; empty when nothing had begun.
   *
   * @throws InputProblem when the disk does not take it: what is on disk stays and is recovered
   *     with the next recording of the asset
   */
  public Optional<RecordedTrial> finish() throws InputProblem, InterruptedException {
    devices.stop();
    try {
      if (!session.hasBegun()) {
        session.discard();
        return Optional.empty();
      }
      return Optional.of(session.finish());
    } catch (IOException e) {
      throw new InputProblem(
          plan.trials()
              + ": the trial could not be made whole: "
              + e.getMessage()
              + "; what is on disk stays there; make room and record again, which recovers it");
    }
  }
}
