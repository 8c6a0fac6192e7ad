#pragma once
// How the library is used: with its bodies in every file (header-only) or in a library (compiled); and what a file's compiler may do.

#if defined(__FAST_MATH__) || (defined(__FINITE_MATH_ONLY__) && __FINITE_MATH_ONLY__) || \
    defined(_M_FP_FAST)
#error \
    "samelight: -ffast-math (-ffinite-math-only, /fp:fast) takes the guards against NaN away; wanted: without it"
#endif
// g++ says so; clang++ has no word for it.
#if defined(__ASSOCIATIVE_MATH__)
#error \
    "samelight: -fassociative-math (-funsafe-math-optimizations) takes the rounding of exp and sine away; wanted: without it"
#endif
#if !defined(__cpp_exceptions) && !defined(_CPPUNWIND)
#error "samelight: errors are exceptions; wanted: no -fno-exceptions"
#endif

/// 1 in files that use the compiled library (the CMake target samelight::compiled sets it), 0 where each header brings its bodies.
#ifndef SAMELIGHT_COMPILED
#define SAMELIGHT_COMPILED 0
#endif

/// Before the definition of a function that a header declares.
#if SAMELIGHT_COMPILED
#define SAMELIGHT_INLINE
#else
#define SAMELIGHT_INLINE inline
#endif

/// Before what a shared library offers. Where the library and its user are both hidden (-fvisibility=hidden) an Error is still caught.
#if defined(_WIN32) && SAMELIGHT_COMPILED && defined(SAMELIGHT_SHARED)
#if defined(SAMELIGHT_BUILDS_LIBRARY)
#define SAMELIGHT_API __declspec(dllexport)
#else
#define SAMELIGHT_API __declspec(dllimport)
#endif
#elif defined(__GNUC__)
#define SAMELIGHT_API __attribute__((visibility("default")))
#else
#define SAMELIGHT_API
#endif

/// 1 where the batch functions use xsimd: where it is (SAMELIGHT_HAS_XSIMD), and has batches of doubles for the processor that is compiled
/// for. It has none for Debian's i386 and s390x, nor for 32-bit ARM; there they are plain loops.
#if defined(SAMELIGHT_HAS_XSIMD) && SAMELIGHT_HAS_XSIMD && \
    (defined(__SSE2__) || defined(_M_X64) || (defined(__aarch64__) && defined(__ARM_NEON)))
#define SAMELIGHT_USES_XSIMD 1
#else
#define SAMELIGHT_USES_XSIMD 0
#endif

// One name for what this file's compiler may use, so that functions which two files compile for unlike processors, or one of them without
// xsimd, are two functions: else the linker keeps one of them, and a plain program gets instructions that its processor lacks.
#define SAMELIGHT_JOIN_(a, b) a##b
#define SAMELIGHT_JOIN(a, b) SAMELIGHT_JOIN_(a, b)

#if defined(__AVX512VL__) && defined(__AVX512DQ__) && defined(__AVX512BW__)
#define SAMELIGHT_VECTORS avx512
#elif defined(__AVX512F__)
#define SAMELIGHT_VECTORS avx512f
#elif defined(__AVX2__)
#define SAMELIGHT_VECTORS avx2
#elif defined(__AVX__)
#define SAMELIGHT_VECTORS avx
#elif defined(__SSE4_2__)
#define SAMELIGHT_VECTORS sse4_2
#elif defined(__SSE4_1__)
#define SAMELIGHT_VECTORS sse4_1
#elif defined(__SSSE3__)
#define SAMELIGHT_VECTORS ssse3
#elif defined(__SSE3__)
#define SAMELIGHT_VECTORS sse3
#elif defined(__SSE2__) && !defined(__x86_64__)
#define SAMELIGHT_VECTORS sse2
#elif defined(__ARM_FEATURE_SVE2)
#define SAMELIGHT_VECTORS sve2
#elif defined(__ARM_FEATURE_SVE)
#define SAMELIGHT_VECTORS sve
#elif defined(__ARM_NEON) && !defined(__aarch64__)
#define SAMELIGHT_VECTORS neon
#elif defined(__wasm_simd128__)
#define SAMELIGHT_VECTORS simd128
#else
#define SAMELIGHT_VECTORS plain
#endif
#if defined(__FMA__)
#define SAMELIGHT_FUSED _fma
#else
#define SAMELIGHT_FUSED
#endif
#if defined(__BMI2__)
#define SAMELIGHT_BITS _bmi2
#else
#define SAMELIGHT_BITS
#endif
#if SAMELIGHT_USES_XSIMD
#define SAMELIGHT_SIMD _xsimd
#else
#define SAMELIGHT_SIMD
#endif
#define SAMELIGHT_PROCESSOR                                            \
    SAMELIGHT_JOIN(SAMELIGHT_JOIN(SAMELIGHT_VECTORS, SAMELIGHT_FUSED), \
                   SAMELIGHT_JOIN(SAMELIGHT_BITS, SAMELIGHT_SIMD))

/// The inline namespace that everything stands in. Users don't write it. Compiled: one for all files, because they share the library's types
/// and functions; batch functions, which stay in headers, stand in SAMELIGHT_KERNELS within it.
#if SAMELIGHT_COMPILED
#define SAMELIGHT_FORM compiled
#else
#define SAMELIGHT_FORM SAMELIGHT_JOIN(in_header_, SAMELIGHT_PROCESSOR)
#endif
#define SAMELIGHT_KERNELS SAMELIGHT_JOIN(for_, SAMELIGHT_PROCESSOR)
