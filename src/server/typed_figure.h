// A figure as a person types it in the app, and as the document writes it. For the server room
// alone.
#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "garden/schema.h"

namespace spadework::server {

/// Whether values of the type are figures, alone or with a unit.
[[nodiscard]] bool is_figure(garden::ValueType type);

/// TOML of what was typed into a field of a figure's type. Quotation marks of print are taken for
/// feet and inches, a comma before decimals for a point. In an imperial garden a bare length is in
/// feet and a bare temperature in °F, and the document says so: "9" is written `"9 ft"`, "12½" is
/// `"12½ ft"`. Words that
/// are no figure come back as text: the document tells what is wrong.
/// Errors: kWrongType for a comma that may part thousands, or a comma beside a point.
[[nodiscard]] Result<std::string> figure_toml(std::string_view text, garden::ValueType type,
                                              bool imperial);
/// The same of an amount: "6,5 kg" is written `"6.5 kg"`.
[[nodiscard]] Result<std::string> amount_toml(std::string_view text);

}  // namespace spadework::server
