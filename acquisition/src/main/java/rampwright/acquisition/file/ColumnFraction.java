package rampwright.acquisition.file;

import java.util.List;
import rampwright.acquisition.file.ColumnTable.Column;

/** A column that holds the parts of a second a wall clock in another column leaves out. */
final class ColumnFraction {
  private ColumnFraction() {}

  /**
   * Whether a column of numbers completes a clock: the clock shows whole seconds, and the numbers
   * are whole, from 0 to below a second of their unit, and the header is a unit alone or they do
   * not rise throughout as a time of its own would.
   */
  static boolean is(ColumnTable table, Column column, Column clock) {
    double unitS = unitS(column);
    if (!(unitS < 1) || ColumnResolution.ofClocks(table.cells(clock.index())) < 1) {
      return false;
    }
    char decimal = table.layout().dialect().decimal();
    List<String> cells = table.cells(column.index());
    for (String cell : cells) {
      if (!CsvCells.isNumber(cell, decimal)) {
        return false;
      }
      double parts = CsvCells.number(cell, decimal);
      if (parts < 0 || parts * unitS >= 1 || parts != Math.rint(parts)) {
        return false;
      }
    }
    boolean unitAlone = column.head().unit() == null || column.head().name().isBlank();
    return !cells.isEmpty() && (unitAlone || !table.rises(column.index()));
  }

  /** What its numbers count, s; 1 when its header does not say a part of a second. */
  static double unitS(Column column) {
    UnitTable.Unit unit = column.head().unit();
    unit = unit != null ? unit : UnitTable.find(column.head().name());
    return unit != null && unit.dimension() == UnitTable.Dimension.TIME ? unit.factor() : 1;
  }
}
