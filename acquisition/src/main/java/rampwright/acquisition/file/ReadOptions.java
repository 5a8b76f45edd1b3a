package rampwright.acquisition.file;

import org.jspecify.annotations.Nullable;
import rampwright.analysis.trace.TraceKind;

/**
 * What a person says about a trace file before it is read.
 *
 * @param columns which column or channel is what
 * @param declaredKind what the values are; null to find it out
 * @param secondaryValues take COMTRADE values on the secondary side of the instrument transformers;
 *     otherwise primary values, the ones in the motor's leads
 * @param context rated values, for columns in per cent or multiples of them
 */
public record ReadOptions(
    ColumnMapping columns,
    @Nullable TraceKind declaredKind,
    boolean secondaryValues,
    ReadContext context) {

  /** Nothing said: everything is found out, primary values. */
  public static final ReadOptions DEFAULT =
      new ReadOptions(ColumnMapping.NONE, null, false, ReadContext.NONE);

  /** Without rated values: columns in per cent of them are left out. */
  public ReadOptions(
      ColumnMapping columns, @Nullable TraceKind declaredKind, boolean secondaryValues) {
    this(columns, declaredKind, secondaryValues, ReadContext.NONE);
  }
}
