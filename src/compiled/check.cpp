// The bodies of check/: what samelight::compiled holds of it.
#include "samelight/check/adjusting/impl/control.ipp"
#include "samelight/check/adjusting/impl/control_plan.ipp"
#include "samelight/check/adjusting/impl/control_reply.ipp"
#include "samelight/check/adjusting/impl/grey_drives.ipp"
#include "samelight/check/adjusting/impl/point_plan.ipp"
#include "samelight/check/intent/impl/intended_display.ipp"
#include "samelight/check/intent/impl/signal_curve.ipp"
#include "samelight/check/patches/impl/signal_patch.ipp"
