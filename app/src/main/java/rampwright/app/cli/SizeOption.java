package rampwright.app.cli;

import picocli.CommandLine.Option;
import rampwright.app.usecase.ChartSize;

/** How large a picture is. */
final class SizeOption {
  @Option(
      names = "--size",
      paramLabel = "WxH",
      converter = SizeConverter.class,
      description = "The picture's size in pixels. Left out: 1600x900.")
  private ChartSize size = ChartSize.DEFAULT;

  ChartSize value() {
    return size;
  }
}
