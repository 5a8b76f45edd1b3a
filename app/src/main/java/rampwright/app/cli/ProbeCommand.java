package rampwright.app.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.Option;
import rampwright.app.json.DeviceJson;
import rampwright.app.result.Probe;
import rampwright.app.usecase.InputProblem;
import rampwright.app.usecase.UsageProblem;
import rampwright.app.wording.ValueText;

/** {@code probe}: each device read once, raw words beside values. */
@CommandLine.Command(
    name = "probe",
    header = "Read devices once and show raw words beside values.",
    description = {
      "",
      "For putting a channel map right: what stands in each register, what the map makes of it, and,"
          + " where that is absurd, which order of words and bytes would not be. It only reads.",
      ""
    },
    footer = {"", "Example:", "  rampwright probe --map meter.map.toml"})
final class ProbeCommand extends Command {
  @Option(
      names = "--map",
      paramLabel = "MAP",
      required = true,
      description = "A channel map; give it again for each further device.")
  private List<Path> maps = new ArrayList<>();

  ProbeCommand(Screen screen, Services services) {
    super(screen, services);
  }

  @Override
  public Integer call() throws InputProblem, UsageProblem {
    List<Probe> probes = services().probeDevices().run(maps);
    if (isJson()) {
      screen().raw(DeviceJson.probes(probes));
    } else {
      probes.forEach(this::print);
      screen().flush();
    }
    boolean failed = probes.stream().anyMatch(probe -> !probe.faults().isEmpty());
    return failed ? ExitCode.DEVICE : ExitCode.DONE;
  }

  private void print(Probe probe) {
    screen().line(probe.device() + " (" + probe.link() + ")");
    TextTable table = new TextTable("  ", "lllrl", "channel", "where", "raw", "value", "");
    for (Probe.Line line : probe.lines()) {
      Double value = line.value();
      table.row(
          line.channel(),
          line.where(),
          SafeText.of(line.raw()),
          value == null ? "-" : ValueText.value(value, null) + " " + line.unit(),
          line.remark());
    }
    if (!table.isEmpty()) {
      screen().table(table);
    }
    probe.faults().forEach(fault -> screen().line("  not read: " + fault));
    screen().line("");
  }
}
