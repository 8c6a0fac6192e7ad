// must fail: no match for 'operator-'|invalid operands to binary expression
// u is the same in the diagrams of 1960 and 1976, v is not: the two are different kinds.
#include "samelight/colour/chromaticity.hpp"

int main() {
    const samelight::Chromaticity<samelight::Cie1931_2deg> white(0.3127, 0.3290);
    const auto now = samelight::uv1976(white);
#ifdef MUST_FAIL
    const auto then = samelight::uv1960(white);
#else
    const auto then = samelight::uv1976(white);
#endif
    return (now - then).distance() == 0.0 ? 0 : 1;
}
