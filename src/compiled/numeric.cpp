// The bodies of numeric/: what samelight::compiled holds of it.
#include "samelight/numeric/impl/condition.ipp"
#include "samelight/numeric/impl/dense.ipp"
#include "samelight/numeric/impl/distributions.ipp"
#include "samelight/numeric/impl/propagation.ipp"
#include "samelight/numeric/impl/quantile.ipp"
#include "samelight/numeric/impl/small_algebra.ipp"
#include "samelight/numeric/impl/statistics.ipp"
#include "samelight/numeric/impl/text.ipp"
