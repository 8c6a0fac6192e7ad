#pragma once
// The answers of `samelight panel` and `samelight observer`: what there is by name, and its tables.
#include <string>

namespace samelight::report {

/// The built-in generic panels, each with the line by which a person recognises the type.
std::string panel_list_page();
/// The same as JSON, with every parameter, its plausible range and its source: "schema": "samelight/panel/1".
std::string panel_list_json();
/// A built-in panel's spectra, 380-780 nm by 1 nm, in the plain form of a spectral CSV, marked as generic.
/// Throws Error (domain) for an unknown name.
std::string panel_csv(const std::string& name);
/// The same as JSON. Throws as panel_csv.
std::string panel_json(const std::string& name);

/// The observers that can be asked for by name.
std::string observer_list_page();
/// "schema": "samelight/observer/1".
std::string observer_list_json();
/// An observer's rows on a 1 nm grid over its table's range: wavelength_nm,x,y,z or wavelength_nm,l,m,s (each 1 at its peak). Throws
/// Error (domain) for an unknown name.
std::string observer_csv(const std::string& name);
/// The same as JSON. Throws as observer_csv.
std::string observer_json(const std::string& name);

}  // namespace samelight::report
