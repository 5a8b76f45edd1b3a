import java.nio.file.Path;
import rampwright.acquisition.file.ColumnMapping;
import rampwright.acquisition.file.CsvTraceReader;
import rampwright.analysis.trace.ChannelName;
import rampwright.analysis.trace.Samples;
import rampwright.analysis.trace.Trace;

/** Reads a file a number of times; prints seconds for each and a checksum of the first current. */
public final class ReadOurs {
  public static void main(String[] arguments) throws Exception {
    for (int run = 0; run < Integer.parseInt(arguments[1]); run++) {
      long start = System.nanoTime();
      Trace trace = CsvTraceReader.read(Path.of(arguments[0]), ColumnMapping.NONE, null);
      double seconds = (System.nanoTime() - start) / 1e9;
      Samples i1 = trace.channel(ChannelName.I1);
      double sum = 0;
      for (int i = 0; i < i1.size(); i++) {
        sum += i1.at(i);
      }
      System.out.println(seconds + " " + trace.size() + " " + sum);
    }
  }
}
