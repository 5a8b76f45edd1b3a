package rampwright.app.usecase;

/** Port: how far long work has come. Called from several threads. */
public interface Progress {
  /** Nobody looks. */
  Progress NONE =
      new Progress() {
        @Override
        public void begun(int total) {}

        @Override
        public void done(String name, boolean failed) {}

        @Override
        public void ended() {}
      };

  /** Work on so many things begins. */
  void begun(int total);

  /** One of them is done. */
  void done(String name, boolean failed);

  /** All work is over. */
  void ended();
}
