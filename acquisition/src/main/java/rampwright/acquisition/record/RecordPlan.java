package rampwright.acquisition.record;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.map.ChannelMap;

/**
 * How a trial is to be recorded.
 *
 * @param trials folder in which the trial's folder is made
 * @param maps the devices
 * @param on what begins it
 * @param until what ends it
 * @param preS how much before its begin belongs to it, s
 * @param longestS how long after its begin it may last, s
 * @param ratedCurrentA the motor's rated current, A
 * @param ratedSpeedRpm the motor's rated speed, rpm
 * @param settings text of {@code settings.toml} without its {@code [trial]}; null for none
 * @param notes lines for the trace's head
 * @param journalArmed whether readings go to disk while waiting for the begin
 */
public record RecordPlan(
    Path trials,
    List<ChannelMap> maps,
    TriggerKind on,
    EndKind until,
    double preS,
    double longestS,
    double ratedCurrentA,
    double ratedSpeedRpm,
    @Nullable SettingsText settings,
    List<String> notes,
    boolean journalArmed) {
  public RecordPlan {
    maps = List.copyOf(maps);
    notes = List.copyOf(notes);
  }
}
