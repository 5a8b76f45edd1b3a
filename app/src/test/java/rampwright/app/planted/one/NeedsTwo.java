package rampwright.app.planted.one;

import org.jspecify.annotations.Nullable;
import rampwright.app.planted.two.NeedsOne;

public record NeedsTwo(@Nullable NeedsOne one) {}
