// What a person does to a thing in one scheme, as edits of the document: as found the entry itself
// is altered; in a proposal what is proposed there is altered, and of all else a change is made.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "document/patch.h"
#include "garden/entry.h"
#include "geometry/vec.h"

namespace spadework::document {

/// A thing as a scheme has it.
struct ThingIn {
  const garden::Draft& draft;
  std::string scheme;
  std::string thing;  // its id
};

/// A key and its new value as TOML; nothing: the key is left out.
using KeyChange = std::pair<std::string, std::optional<std::string>>;

/// Errors of all: kUnknownId for a thing that the scheme does not have; kWrongUse as stated.

/// Keys that get the value which the entry has anyway leave the change again, and so does a change
/// that says nothing any more.
/// Errors: kWrongUse for leaving out a key of the entry in a change.
[[nodiscard]] Result<std::vector<Edit>> set_keys(const ThingIn& in,
                                                 const std::vector<KeyChange>& keys);
/// Moves all its places, to tenths of a millimetre; figures that do not move stay as typed.
/// Errors: kWrongUse for a thing that stands at a survey point.
[[nodiscard]] Result<std::vector<Edit>> move_by(const ThingIn& in, geometry::Vec2 by);
/// The draft as those edits leave it, without its text being written and read: while a thing is
/// dragged.
[[nodiscard]] Result<garden::Draft> moved_by(const ThingIn& in, geometry::Vec2 by);
/// What was taken away comes back as it was in the proposal; else as if the scheme had never
/// touched it. Errors: kWrongUse when it has not.
[[nodiscard]] Result<std::vector<Edit>> put_back(const ThingIn& in);
/// As found and what is proposed: its entry and its changes go. What exists is marked as removed in
/// the proposal; a scheme of its own cannot remove it: kWrongUse.
[[nodiscard]] Result<std::vector<Edit>> take_away(const ThingIn& in);

/// A new thing. As found it exists; in a proposal it is proposed, for that scheme alone if it is a
/// named one.
struct NewThing {
  std::string table;           // "bed"
  std::string called;          // what its id is made of, such as its kind; empty: its table
  std::vector<KeyValue> keys;  // without id, status and scheme
};
struct AddedThing {
  std::string id;  // that no other entry has: "bed", "bed-2", …
  Edit edit;
};
/// Errors: kWrongUse for a table that holds no things.
[[nodiscard]] Result<AddedThing> add_thing(const garden::Draft& draft, const std::string& scheme,
                                           NewThing thing);

/// A value as TOML.
[[nodiscard]] std::string toml_value(const garden::Value& value);

}  // namespace spadework::document
