package rampwright.app.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class SealTest {
  private static final String A = "a".repeat(64);
  private static final String B = "b".repeat(64);

  private static Seal seal(String... pathsAndSums) {
    List<SealedFile> files = new ArrayList<>();
    for (int k = 0; k < pathsAndSums.length; k += 2) {
      files.add(new SealedFile(pathsAndSums[k], pathsAndSums[k + 1]));
    }
    return new Seal(files);
  }

  /**
   * GNU coreutils 9.1: {@code sha256sum x y | sha256sum} over the files x = "abc" and y = "". The
   * sums of both are those of FIPS 180-4's example and of the empty message.
   */
  @Test
  void theSumIsThatOfTheLinesSha256sumPrints() {
    Seal seal =
        seal(
            "y", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
            "x", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    assertThat(seal.sha256())
        .isEqualTo("88546bdbdc0bc340965638fdd3bc0c641ec9dddbf673846f5948d024910050b9");
  }

  @Test
  void whatChangedWasAddedOrRemovedIsNamed() {
    Seal then = seal("asset.toml", A, "trials/1/trace.csv", A, "trials/2/trace.csv", A);
    Seal now = seal("asset.toml", B, "trials/2/trace.csv", A, "trials/3/trace.csv", A);
    assertThat(now.since(then))
        .extracting(one -> one.path() + " " + one.change().key())
        .containsExactly(
            "asset.toml changed", "trials/1/trace.csv removed", "trials/3/trace.csv added");
    assertThat(now.since(now)).isEmpty();
    assertThat(now.sha256()).isNotEqualTo(then.sha256());
  }

  @Test
  void aSignatureWhoseListWasEditedSaysSo() {
    Seal seal = seal("asset.toml", A);
    Seal other = seal("asset.toml", B);
    assertThat(SignatureCheck.of(signature(seal.sha256(), seal), seal).stands()).isTrue();
    SignatureCheck edited = SignatureCheck.of(signature(seal.sha256(), other), other);
    assertThat(edited.stands()).isFalse();
    assertThat(edited.sentence()).contains("edited");
  }

  private static Signature signature(String sum, Seal seal) {
    return new Signature(
        "A. Fitter", null, null, null, null, Instant.EPOCH, "UTC", "accepted", null, sum, seal);
  }
}
