// must fail: no match for 'operator\+'|invalid operands to binary expression
// Two colours cannot be added, a colour and a difference can.
#include "samelight/colour/spaces/lab.hpp"

int main() {
    const samelight::Tristimulus<samelight::Cie1931_2deg> white(95.0, 100.0, 109.0);
    const samelight::Lab<samelight::Cie1931_2deg> p(50.0, 1.0, 2.0, white);
    const samelight::Lab<samelight::Cie1931_2deg> q(60.0, 3.0, 4.0, white);
#ifdef MUST_FAIL
    const auto sum = p + q;
#else
    const auto sum = p + (q - p);
#endif
    return sum.L() > 0.0 ? 0 : 1;
}
