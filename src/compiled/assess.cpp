// The bodies of assess/: what samelight::compiled holds of it.
#include "samelight/assess/impl/spectrum.ipp"
#include "samelight/assess/impl/spectrum_corrections.ipp"
#include "samelight/assess/impl/watching_eyes.ipp"
#include "samelight/assess/impl/white.ipp"
#include "samelight/assess/impl/white_people.ipp"
#include "samelight/assess/impl/white_request.ipp"
#include "samelight/assess/impl/white_verdict.ipp"
