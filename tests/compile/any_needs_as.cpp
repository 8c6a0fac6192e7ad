// must fail: conversion from .*Any.* requested|no viable conversion from .*Any
// From Any back to a standard observer the way is checked, and has to be asked for.
#include "samelight/observer/tristimulus.hpp"

int main() {
    using samelight::Cie1931_2deg;
    const samelight::Tristimulus<Cie1931_2deg> tagged(95.0, 100.0, 109.0);
    const samelight::Tristimulus<samelight::Any> any = tagged;
#ifdef MUST_FAIL
    const samelight::Tristimulus<Cie1931_2deg> back = any;
#else
    const samelight::Tristimulus<Cie1931_2deg> back = any.as<Cie1931_2deg>();
#endif
    return back == tagged ? 0 : 1;
}
