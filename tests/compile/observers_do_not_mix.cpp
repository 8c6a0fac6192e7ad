// must fail: no match for 'operator\+'|invalid operands to binary expression
// Tristimulus values of two observers are of different types, and adding them means nothing.
#include "samelight/observer/tristimulus.hpp"

int main() {
    const samelight::Tristimulus<samelight::Cie1931_2deg> meter(95.0, 100.0, 109.0);
#ifdef MUST_FAIL
    const samelight::Tristimulus<samelight::Cie1964_10deg> eye(95.0, 100.0, 107.0);
#else
    const samelight::Tristimulus<samelight::Cie1931_2deg> eye(95.0, 100.0, 107.0);
#endif
    return (meter + eye).Y() > 0.0 ? 0 : 1;
}
