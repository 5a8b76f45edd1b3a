package rampwright.app.planted.two;

import org.jspecify.annotations.Nullable;
import rampwright.app.planted.one.NeedsTwo;

public record NeedsOne(@Nullable NeedsTwo two) {}
