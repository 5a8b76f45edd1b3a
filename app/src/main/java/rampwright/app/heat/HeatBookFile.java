package rampwright.app.heat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import rampwright.acquisition.file.AtomicFile;
import rampwright.acquisition.toml.NumberKey;
import rampwright.acquisition.toml.TomlFile;
import rampwright.acquisition.toml.TomlProblemsException;
import rampwright.acquisition.toml.TomlSection;
import rampwright.acquisition.toml.TomlText;
import rampwright.analysis.heat.HeatPiece;
import rampwright.analysis.heat.HeatStretch;

/** Reads and writes {@code heat.toml}. */
public final class HeatBookFile {
  /** Its name in an asset folder. */
  public static final String NAME = "heat.toml";

  /** TOML files above 1 MiB are refused. */
  private static final int LARGEST_BYTES = 900_000;

  private static final NumberKey LASTS =
      new NumberKey("s", "s", 0, 1e8, "how long a piece lasts", "");
  private static final NumberKey SQUARE =
      new NumberKey("square", "", 0, 1e5, "current over rated, squared", "");
  private static final NumberKey ROTOR =
      new NumberKey("rotor", "", 0, 4e5, "the same with the negative sequence's weight", "");
  private static final NumberKey END =
      new NumberKey("end_square", "", 0, 1e5, "current over rated where it ends, squared", "");
  private static final NumberKey BYTES = new NumberKey("bytes", "", 0, 1e15, "size of a file", "");
  private static final NumberKey WAIT = new NumberKey("wait_s", "s", 0, 1e9, "wait left", "");
  private static final NumberKey UP =
      new NumberKey("up_s", "s", 0, 1e11, "how long the computer had been on", "");
  private static final NumberKey MOVED =
      new NumberKey("moved_s", "s", -1e11, 1e11, "by how much the clock went forward", "");
  private static final NumberKey CLOCK =
      new NumberKey("clock_steps", "", 0, 1e6, "steps of the clock known then", "");
  private static final NumberKey LASTED =
      new NumberKey("lasted_s", "s", 0.1, 3600, "how long the start took", "");
  private static final NumberKey RATIO =
      new NumberKey("current_ratio", "", 0.1, 20, "its current over rated", "");
  private static final NumberKey FROM = new NumberKey("from", "", 0, 1e6, "number of a piece", "");
  private static final NumberKey TO = new NumberKey("to", "", 1, 1e6, "number of a piece", "");

  private HeatBookFile() {}

  /**
   * The account of a folder; empty when it has none yet.
   *
   * @throws TomlProblemsException with every problem of the file
   */
  public static HeatBook read(Path assetFolder) throws IOException, TomlProblemsException {
    Path path = assetFolder.resolve(NAME);
    if (!Files.exists(path)) {
      return HeatBook.EMPTY;
    }
    TomlFile file = TomlFile.read(path);
    TomlSection root = file.root();
    Instant seen = null;
    HeatBook.UpTime mark = null;
    HeatBook.Opened opened = null;
    TomlSection account = root.section("account");
    if (account != null) {
      seen = account.instant("last_seen");
      Instant first = account.instant("opened");
      opened = first == null ? null : new HeatBook.Opened(first, clock(account));
      String boot = account.text("boot");
      Double up = account.number(UP);
      mark = boot == null || up == null ? null : new HeatBook.UpTime(boot, up);
      account.finish();
    }
    List<HeatBook.ClockStep> steps =
        root.each(
            "clock",
            one ->
                new HeatBook.ClockStep(
                    at(one, "at"),
                    one.requiredNumber(MOVED),
                    one.flag("witnessed", false),
                    one.text("right_by")));
    List<HeatBook.Cold> cold =
        root.each(
            "cold",
            one ->
                new HeatBook.Cold(
                    at(one, "at"), one.requiredText("by", "who says so"), clock(one)));
    List<HeatBook.Noted> noted =
        root.each(
            "start",
            one ->
                new HeatBook.Noted(
                    at(one, "at"),
                    one.requiredText("by", "who says so"),
                    one.flag("time_known", true),
                    one.number(LASTED),
                    one.number(RATIO),
                    one.instant("stopped_at"),
                    clock(one)));
    List<HeatBook.Early> early =
        root.each(
            "early",
            one ->
                new HeatBook.Early(
                    at(one, "at"),
                    one.requiredText("reason", "why it could not wait"),
                    one.number(WAIT),
                    one.requiredText("ruled_by", "the rule that asked to wait")));
    List<HeatBook.Entry> traces = new ArrayList<>();
    for (TomlSection one : root.sections("trace")) {
      HeatBook.Entry entry = entry(one);
      if (entry != null) {
        traces.add(entry);
      }
    }
    root.finish();
    file.finish();
    return new HeatBook(seen, mark, opened, steps, cold, noted, early, traces);
  }

  private static int clock(TomlSection in) {
    Double steps = in.number(CLOCK);
    return steps == null ? 0 : (int) (double) steps;
  }

  private static Instant at(TomlSection in, String key) {
    return in.requiredInstant(key, "when it was");
  }

  private static HeatBook.@Nullable Entry entry(TomlSection in) {
    String trial = in.requiredText("trial", "the name of the trial's folder");
    double bytes = in.requiredNumber(BYTES);
    Instant modified = at(in, "modified");
    Instant begun = at(in, "at");
    String datedBy = in.requiredText("dated_by", "how the date is known");
    boolean flows = in.flag("flows_at_end", false);
    Double end = in.number(END);
    int clock = clock(in);
    List<HeatPiece> pieces = in.each("pieces", HeatBookFile::piece);
    List<HeatStretch.Start> starts =
        in.each(
            "starts",
            one ->
                new HeatStretch.Start(
                    (int) one.requiredNumber(FROM),
                    (int) one.requiredNumber(TO),
                    one.requiredText("outcome", "how it ended"),
                    one.flag("cut_off", false)));
    in.finish();
    try {
      return new HeatBook.Entry(
          trial,
          (long) bytes,
          modified,
          begun,
          datedBy,
          new HeatStretch(pieces, starts, flows, end == null ? 0 : end),
          clock);
    } catch (IllegalArgumentException e) {
      in.problem("starts", e.getMessage() + "; take this [[trace]] out to have it read anew");
      return null;
    }
  }

  private static HeatPiece piece(TomlSection in) {
    HeatPiece.State state = in.word("state", HeatWords.STATES);
    Double square = in.number(SQUARE);
    Double rotor = in.number(ROTOR);
    double stator = square == null ? 0 : square;
    return new HeatPiece(
        in.requiredNumber(LASTS),
        state == null ? HeatPiece.State.REST : state,
        stator,
        rotor == null ? stator : rotor);
  }

  /**
   * Writes the account, whole or not at all. Of so many traces that the file would be too large to
   * read, the oldest are left out: they are read from their trials again.
   */
  public static void write(Path assetFolder, HeatBook book) throws IOException {
    HeatBook kept = book;
    byte[] text = text(kept).getBytes(StandardCharsets.UTF_8);
    while (text.length > LARGEST_BYTES && !kept.traces().isEmpty()) {
      int less = Math.max(1, kept.traces().size() / 8);
      kept = kept.with(kept.traces().subList(less, kept.traces().size()));
      text = text(kept).getBytes(StandardCharsets.UTF_8);
    }
    AtomicFile.write(assetFolder.resolve(NAME), text);
  }

  static String text(HeatBook book) {
    TomlText out = new TomlText();
    out.comment("The heat account of this asset, kept by the command heat. People may read and");
    out.comment(
        "correct it. A [[trace]] taken out is read from its trial's folder anew; one whose");
    out.comment("trial is gone still counts. Squares are of current over rated current.");
    out.section("account");
    out.put("last_seen", book.lastSeen());
    HeatBook.UpTime mark = book.mark();
    if (mark != null) {
      out.put("boot", mark.boot()).put("up_s", Double.valueOf(mark.seconds()));
    }
    HeatBook.Opened opened = book.opened();
    if (opened != null) {
      out.put("opened", opened.at());
      clock(out, opened.clock());
    }
    for (HeatBook.ClockStep step : book.steps()) {
      out.entry("clock").put("at", step.at()).put("moved_s", Double.valueOf(step.movedS()));
      out.put("witnessed", Boolean.valueOf(step.witnessed())).put("right_by", step.rightBy());
    }
    for (HeatBook.Cold cold : book.cold()) {
      out.entry("cold").put("at", cold.at()).put("by", cold.by());
      clock(out, cold.clock());
    }
    for (HeatBook.Noted start : book.noted()) {
      out.entry("start").put("at", start.at()).put("by", start.by());
      out.put("time_known", Boolean.valueOf(start.timeKnown())).put("lasted_s", start.lastedS());
      out.put("current_ratio", start.ratio()).put("stopped_at", start.stoppedAt());
      clock(out, start.clock());
    }
    for (HeatBook.Early early : book.early()) {
      out.entry("early").put("at", early.at()).put("reason", early.reason());
      out.put("wait_s", early.waitS()).put("ruled_by", early.ruledBy());
    }
    for (HeatBook.Entry entry : book.traces()) {
      out.entry("trace").put("trial", entry.trial()).put("at", entry.at());
      out.put("dated_by", entry.datedBy()).put("bytes", Double.valueOf((double) entry.bytes()));
      out.put("modified", entry.modified());
      out.put("flows_at_end", Boolean.valueOf(entry.stretch().flowsAtEnd()));
      out.put("end_square", Double.valueOf(digits(entry.stretch().endSquare())));
      clock(out, entry.clock());
      out.raw("starts", starts(entry.stretch()));
      out.raw("pieces", pieces(entry.stretch()));
    }
    return out.toString();
  }

  private static void clock(TomlText out, int steps) {
    out.put("clock_steps", steps == 0 ? null : Double.valueOf(steps));
  }

  private static String starts(HeatStretch stretch) {
    StringBuilder text = new StringBuilder("[");
    for (HeatStretch.Start start : stretch.starts()) {
      text.append(
          String.format(
              Locale.ROOT,
              "%n  { from = %d, to = %d, outcome = \"%s\", cut_off = %s },",
              start.fromPiece(),
              start.toPiece(),
              start.outcome().replaceAll("[\"\\\\\\p{Cntrl}]", " "),
              start.cutOff()));
    }
    return text.append("\n]").toString().replace("\r\n", "\n");
  }

  private static String pieces(HeatStretch stretch) {
    StringBuilder text = new StringBuilder("[");
    for (HeatPiece piece : stretch.pieces()) {
      text.append("\n  { s = ").append(TomlText.number(digits(piece.lastsS())));
      text.append(", state = \"").append(piece.state().key()).append('"');
      if (piece.state() != HeatPiece.State.REST) {
        text.append(", square = ").append(TomlText.number(digits(piece.square())));
        if (piece.rotorSquare() != piece.square()) {
          text.append(", rotor = ").append(TomlText.number(digits(piece.rotorSquare())));
        }
      }
      text.append(" },");
    }
    return text.append("\n]").toString();
  }

  /** Seven digits: what is kept gives the account it came from. */
  private static double digits(double value) {
    return Double.parseDouble(String.format(Locale.ROOT, "%.6e", value));
  }
}
