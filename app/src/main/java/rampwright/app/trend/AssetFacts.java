package rampwright.app.trend;

import java.time.ZoneId;

/**
 * What an asset is called and where it stands, as last noted.
 *
 * @param name as people call it; empty where nobody said
 * @param group it belongs to; empty where none
 * @param zone in which its times are shown
 */
public record AssetFacts(String name, String group, ZoneId zone) {
  /** Where nothing was noted. */
  public static final AssetFacts NONE = new AssetFacts("", "", ZoneId.of("UTC"));
}
