package rampwright.acquisition.bench;

import java.util.Random;

/**
 * Readings as registers, with a meter's noise. The layout is invented.
 *
 * <p>Holding and input registers alike: f32, high word first, from 0: i1 i2 i3 v12 v23 v31 speed;
 * the same seven as scaled u16 from 100. Coil and discrete input 0: run. A question is answered
 * from one instant. Thread-safe.
 */
public final class BenchRegisters {
  /** First register of the floats. */
  public static final int FLOATS = 0;

  /** First register of the scaled numbers. */
  public static final int SCALED = 100;

  /** Number of quantities. */
  static final int COUNT = 7;

  /** Room above rated values in the scaled numbers; starts draw up to about eight times. */
  private static final double CURRENT_ROOM = 15;

  private static final double VOLTAGE_ROOM = 1.5;
  private static final double SPEED_ROOM = 1.2;
  private static final int LARGEST_WORD = 0xffff;

  /** Noise of a current of nothing, of rated current, over the noise of a reading. */
  private static final double FLOOR_SHARE = 0.2;

  private final BenchMotor motor;
  private final double noise;
  private final Random random;
  private final double currentScale;
  private final double voltageScale;
  private final double speedScale;

  /**
   * Registers of a motor.
   *
   * @param noise standard deviation of a reading, of the reading; 0 = none
   */
  public BenchRegisters(BenchMotor motor, double noise, long seed) {
    this.motor = motor;
    this.noise = noise;
    this.random = new Random(seed);
    this.currentScale = scale(CURRENT_ROOM * motor.model().plate().ratedCurrentA());
    this.voltageScale = scale(VOLTAGE_ROOM * motor.model().plate().ratedVoltageV());
    this.speedScale = scale(SPEED_ROOM * motor.model().plate().syncSpeedRpm());
  }

  /** The finest power of ten that shows a value in a word. */
  private static double scale(double largest) {
    double step = 0.01;
    while (largest / step > LARGEST_WORD) {
      step *= 10;
    }
    return step;
  }

  /** Amperes a digit of the scaled currents. */
  public double currentScale() {
    return currentScale;
  }

  /** Volts a digit of the scaled voltages. */
  public double voltageScale() {
    return voltageScale;
  }

  /** 1/min a digit of the scaled speed. */
  public double speedScale() {
    return speedScale;
  }

  /** Noisy values in the order of the registers: A, V, 1/min. */
  synchronized double[] values(BenchReading now) {
    double floorA = FLOOR_SHARE * noise * motor.model().plate().ratedCurrentA();
    double[] values = new double[COUNT];
    for (int phase = 0; phase < 3; phase++) {
      // An RMS value is never below 0.
      values[phase] = Math.abs(now.currentA() * (1 + noise * gauss()) + floorA * gauss());
      values[3 + phase] = now.lineVoltageV() * (1 + noise * gauss());
    }
    values[6] = now.speedRpm() * (1 + noise * gauss());
    return values;
  }

  private double gauss() {
    return noise == 0 ? 0 : random.nextGaussian();
  }

  /** Whether all of these registers are there. */
  static boolean hasRegisters(int from, int count) {
    boolean floats = from >= FLOATS && from + count <= FLOATS + 2 * COUNT;
    boolean scaled = from >= SCALED && from + count <= SCALED + COUNT;
    return floats || scaled;
  }

  /** Whether all of these bits are there. */
  static boolean hasBits(int from, int count) {
    return from == 0 && count == 1;
  }

  /** Registers that are there, 16 bits each. */
  int[] registers(int from, int count) {
    double[] values = values(motor.reading());
    int[] words = new int[count];
    for (int k = 0; k < count; k++) {
      int address = from + k;
      if (address >= SCALED) {
        int which = address - SCALED;
        double step = which < 3 ? currentScale : which < 6 ? voltageScale : speedScale;
        words[k] = (int) Math.max(0, Math.min(LARGEST_WORD, Math.round(values[which] / step)));
      } else {
        int bits = Float.floatToIntBits((float) values[(address - FLOATS) / 2]);
        words[k] = (address - FLOATS) % 2 == 0 ? bits >>> 16 : bits & LARGEST_WORD;
      }
    }
    return words;
  }

  /** What the motor does now, without noise. */
  BenchReading reading() {
    return motor.reading();
  }

  /** Whether the run command is given. */
  boolean run() {
    return motor.reading().run();
  }
}
