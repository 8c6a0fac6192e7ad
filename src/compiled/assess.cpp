// The bodies of assess/: what samelight::compiled holds of it.
#include "samelight/assess/impl/metamerism.ipp"
#include "samelight/assess/impl/meter_choose.ipp"
#include "samelight/assess/impl/meter_fit.ipp"
#include "samelight/assess/impl/meter_fit_plan.ipp"
#include "samelight/assess/impl/meter_model.ipp"
#include "samelight/assess/impl/meter_table.ipp"
#include "samelight/assess/impl/watching_eyes.ipp"
