package rampwright.acquisition.map;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Registers or bits read in one request, and the channels in them.
 *
 * @param function 1 to 4
 * @param address of the first
 * @param count how many
 * @param poll poll group
 * @param channels indices into the map's channels
 */
public record ReadBlock(int function, int address, int count, String poll, List<Integer> channels) {
  /** Most registers in one answer (Modbus Application Protocol V1.1b3, 6.3 and 6.4). */
  public static final int MOST_REGISTERS = 125;

  /** Most bits in one answer (Modbus Application Protocol V1.1b3, 6.1 and 6.2). */
  public static final int MOST_BITS = 2000;

  public ReadBlock {
    channels = List.copyOf(channels);
  }

  /**
   * The requests that read every register channel of a map, the fewest that keep each number in one
   * answer: neighbours are read together, and across at most {@code bridge} others.
   */
  public static List<ReadBlock> of(ChannelMap map) {
    Map<String, List<Integer>> kinds = new LinkedHashMap<>();
    for (int i = 0; i < map.channels().size(); i++) {
      if (map.channels().get(i).source() instanceof ChannelSource.Registers at) {
        kinds
            .computeIfAbsent(
                map.channels().get(i).poll() + " " + at.function(), kind -> new ArrayList<>())
            .add(i);
      }
    }
    List<ReadBlock> blocks = new ArrayList<>();
    for (List<Integer> same : kinds.values()) {
      same.sort(Comparator.comparingInt(i -> registers(map, i).address()));
      List<Integer> open = new ArrayList<>();
      int begin = 0;
      int end = 0;
      for (int i : same) {
        ChannelSource.Registers at = registers(map, i);
        int most = at.isBit() ? MOST_BITS : MOST_REGISTERS;
        int newEnd = Math.max(end, at.end());
        if (!open.isEmpty() && (at.address() > end + map.bridge() || newEnd - begin > most)) {
          blocks.add(block(map, open, begin, end));
          open.clear();
        }
        if (open.isEmpty()) {
          begin = at.address();
          newEnd = at.end();
        }
        open.add(i);
        end = newEnd;
      }
      blocks.add(block(map, open, begin, end));
    }
    return blocks;
  }

  private static ReadBlock block(ChannelMap map, List<Integer> channels, int begin, int end) {
    return new ReadBlock(
        registers(map, channels.get(0)).function(),
        begin,
        end - begin,
        map.channels().get(channels.get(0)).poll(),
        channels);
  }

  private static ChannelSource.Registers registers(ChannelMap map, int channel) {
    return (ChannelSource.Registers) map.channels().get(channel).source();
  }

  /**
   * The value of one of its channels out of the words (or bits, 0 and 1) that were read; NaN where
   * the device says "no reading".
   */
  public double value(ChannelMap map, int channel, int[] words) {
    ChannelSource.Registers at = registers(map, channel);
    long bits = at.form().bits(wordsOf(map, channel, words));
    Long none = at.noReadingBits();
    if (none != null && none == bits) {
      return Double.NaN;
    }
    double value = map.channels().get(channel).value(at.form().decodeBits(bits));
    return Double.isFinite(value) ? value : Double.NaN;
  }

  /** The raw words of one of its channels out of those that were read. */
  public int[] wordsOf(ChannelMap map, int channel, int[] words) {
    ChannelSource.Registers at = registers(map, channel);
    int[] own = new int[at.form().type().words()];
    System.arraycopy(words, at.address() - address, own, 0, own.length);
    return own;
  }
}
