package rampwright.acquisition.device;

/** Takes what devices say; called from several threads, must not wait long. */
@FunctionalInterface
public interface EventSink {
  void take(DeviceEvent event);
}
