#pragma once
// What the kernels of kernels_batch.hpp are made of: how numbers' bits are laid out, and polynomials.
#include <array>
#include <cstdint>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::math::kernel {

/// How T's bits are laid out, and the polynomials: Chebyshev fits of our own, the error of each beside it.
template <class T>
struct Constants;

template <>
struct Constants<double> {
    using Bits = uint64_t;
    static constexpr int mantissa_bits = 52;
    static constexpr Bits one = 0x3FF0000000000000, sqrt_half = 0x3FE6A09E667F3BCD;
    static constexpr Bits mantissa_mask = 0x000FFFFFFFFFFFFF;
    /// Added to a small number, it leaves that number's nearest integer in the last bits.
    static constexpr double rounder = 6755399441055744.0;  // 1.5 x 2^52
    static constexpr double two_to_mantissa = 4503599627370496.0;
    static constexpr double ln2_high = 0.69314718036912381649, ln2_low = 1.9082149292705878161e-10;
    static constexpr double exp_least = -708.39641853226410622, exp_most = 709.78271289338399673;
    static constexpr double half_pi_1 = 1.570796326734125614, half_pi_2 = 6.077100506303965976e-11,
                            half_pi_3 = 2.022266248795950631e-21;
    static constexpr double trigonometric_limit = 1e5;

    /// (exp(r) - 1 - r) / r^2, |r| <= ln 2 / 2: 1.3e-17.
    static constexpr std::array<double, 10> exp{0.50000000000000010221,   0.16666666666666667453,
                                                0.041666666666624127873,  0.0083333333333300618325,
                                                0.0013888888917213716901, 0.00019841269863053616878,
                                                2.4801521295954375131e-5, 2.7557268459997064772e-6,
                                                2.7620088445409748161e-7, 2.5100385495510319078e-8};
    /// (2^r - 1) / r, |r| <= 1 / 2: 8e-14 relative. By data/fit_polynomials.py, as in float.
    static constexpr std::array<double, 9> exp2{
        0.69314718055993774,   0.24022650695814085,   0.055504108665734297,
        0.0096181291590516187, 0.0013333557983896999, 0.00015403456133162452,
        1.5252811900419009e-5, 1.3255160724556539e-6, 1.0178087174648749e-7};
    static constexpr double exp2_least = -1000.0;
    /// (2 atanh(s) / s - 2) / s^2 in s^2, |s| <= (sqrt(2) - 1) / (sqrt(2) + 1): 5e-18.
    static constexpr std::array<double, 7> log{0.66666666666666696905, 0.39999999999899381939,
                                               0.28571428626031066765, 0.22222211125722808938,
                                               0.18182889786191042483, 0.15331699633543858719,
                                               0.14616721179861815749};
    /// ((1 - e)^(-1/3) - 1) / e, |e| <= 0.10205: 4e-10.
    static constexpr std::array<double, 6> inverse_cbrt{
        0.33333333693197289009, 0.22222222552177403918, 0.17283329375174890854,
        0.14402722576294102203, 0.12641365863452606821, 0.11241199222261772572};
    /// (sin(r) / r - 1) / r^2 in r^2, |r| <= pi / 4: 1.3e-17.
    static constexpr std::array<double, 6> sin{
        -0.16666666666666664619,  0.008333333333330943718,   -0.00019841269836751363187,
        2.7557316098812686444e-6, -2.5051131065736050002e-8, 1.5918073162923072594e-10};
    /// (cos(r) - 1 + r^2 / 2) / r^4 in r^2, |r| <= pi / 4: 5e-19.
    static constexpr std::array<double, 6> cos{
        0.041666666666666665386,   -0.0013888888888887394254, 2.4801587298761176825e-5,
        -2.7557317269390272167e-7, 2.0876145780903543572e-9,  -1.1382597309861877164e-11};
    /// (atan(z) / z - 1) / z^2 in z^2, |z| <= sqrt(2) - 1: 5e-18.
    static constexpr std::array<double, 11> atan{
        -0.3333333333333333016,   0.19999999999995520678,   -0.14285714284666542922,
        0.11111111015256361727,   -0.090909045781239018905, 0.076921831908260865637,
        -0.066645114473819480001, 0.058581489128022098816,  -0.050854497379402598613,
        0.039231658295587191303,  -0.019176887119062258989};
};

template <>
struct Constants<float> {
    using Bits = uint32_t;
    static constexpr int mantissa_bits = 23;
    static constexpr Bits one = 0x3F800000, sqrt_half = 0x3F3504F3, mantissa_mask = 0x007FFFFF;
    static constexpr float rounder = 12582912.0F;  // 1.5 x 2^23
    static constexpr float two_to_mantissa = 8388608.0F;
    static constexpr float ln2_high = 0.693145751953125F, ln2_low = 1.4286068203094172e-6F;
    static constexpr float exp_least = -87.336544F, exp_most = 88.722839F;
    static constexpr float half_pi_1 = 1.5703125F, half_pi_2 = 0.00048351287841796875F,
                           half_pi_3 = 3.1391647865e-7F;
    static constexpr float trigonometric_limit = 1e4F;

    /// 8e-9.
    static constexpr std::array<float, 5> exp{0.5F, 0.166665769897F, 0.0416665546172F,
                                              0.00836317905272F, 0.00139261835878F};
    /// 5e-7.
    static constexpr std::array<float, 5> exp2{0.693147123F, 0.240223512F, 0.0555050001F,
                                               0.00966624543F, 0.00133335555F};
    static constexpr float exp2_least = -126.0F;
    /// 3e-9.
    static constexpr std::array<float, 3> log{0.666666850507F, 0.399887759978F, 0.295801567053F};
    /// 4.4e-6.
    static constexpr std::array<float, 3> inverse_cbrt{0.333333333333F, 0.223354840639F,
                                                       0.173821369669F};
    /// 1.3e-8.
    static constexpr std::array<float, 3> sin{-0.166666646599F, 0.00833274780434F,
                                              -0.000195877901573F};
    /// 8e-10.
    static constexpr std::array<float, 3> cos{0.0416666646571F, -0.00138883025687F,
                                              2.45478411496e-5F};
    /// 3e-9.
    static constexpr std::array<float, 5> atan{-0.333333317618F, 0.199995404836F, -0.142639555980F,
                                               0.107437314908F, -0.0645192820812F};
};

}  // namespace samelight::math::kernel
