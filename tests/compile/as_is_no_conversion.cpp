// must fail: a value of one standard observer is never one of another
// as() asks whose a value is; it doesn't turn one observer's value into another's.
#include "samelight/observer/tristimulus.hpp"

int main() {
    const samelight::Tristimulus<samelight::Cie1931_2deg> meter(95.0, 100.0, 109.0);
#ifdef MUST_FAIL
    const auto same = meter.as<samelight::Cie1964_10deg>();
#else
    const auto same = meter.as<samelight::Cie1931_2deg>();
#endif
    return same.Y() == meter.Y() ? 0 : 1;
}
