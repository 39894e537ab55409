// The ends of the chains behind light figures: what the document says of a place, of the things
// around it and of the site, and what the catalogue adds. For the study room alone.
#pragma once

#include <string>
#include <vector>

#include "study/study.h"

namespace spadework::study {

/// A figure with its unit, computed from what goes into `inputs` later.
[[nodiscard]] Trace number_trace(std::string name, double number, std::string unit,
                                 std::string value);
/// The link without what it rests on: for a figure whose chain is told elsewhere.
[[nodiscard]] Trace without_inputs(Trace trace);
[[nodiscard]] bool rests_on_guess(const Trace& trace);
/// Its value with ≈ and fewer digits: hours a day to the half, all else to two digits.
void tell_guess(Trace& trace);

/// Where the garden lies: latitude, longitude, height, north.
void add_site(const Stand& stand, std::vector<Trace>& out);
/// The far skyline, if the document has one.
void add_skyline(const Stand& stand, std::vector<Trace>& out);
/// The spot levels or the fall of the ground.
[[nodiscard]] Trace spots_trace(const Stand& stand);
/// What is measured: where the place lies and how high.
void add_place(const Stand& stand, const light::Place& place, const facts::Catalogue& catalogue,
               std::vector<Trace>& out);
/// What is known of a thing that takes light: all that the document gives of it, and what its kind
/// and its crop add. Nothing for ids that are no thing of the document.
void add_thing(const Stand& stand, const std::string& id, const facts::Catalogue& catalogue,
               std::vector<Trace>& out);

/// "1.34 m above the datum", "0.18 m below the datum".
[[nodiscard]] std::string level_says(double level_m);

}  // namespace spadework::study
