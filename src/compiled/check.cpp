// The bodies of check/: what samelight::compiled holds of it.
#include "samelight/check/intent/impl/intended_display.ipp"
#include "samelight/check/intent/impl/signal_curve.ipp"
#include "samelight/check/patches/impl/patch_target.ipp"
#include "samelight/check/patches/impl/signal_patch.ipp"
#include "samelight/check/visits/impl/visit_plan.ipp"
#include "samelight/check/visits/impl/visit_steps.ipp"
#include "samelight/check/visits/impl/warm_up.ipp"
