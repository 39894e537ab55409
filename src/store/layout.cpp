#include "store/layout.h"

#include <fmt/format.h>

#include <array>

#include "store/store.h"

namespace spadework::store {
namespace {

/// What makes layout n + 1 of layout n. A step that has been shipped never changes.
constexpr std::array<const char*, kLayout> kSteps = {
    R"(
CREATE TABLE revision (
  id INTEGER PRIMARY KEY,
  parent INTEGER REFERENCES revision (id),
  text BLOB NOT NULL,
  bytes INTEGER NOT NULL,
  title TEXT NOT NULL,
  says TEXT NOT NULL,
  made TEXT NOT NULL,
  name TEXT UNIQUE
);
CREATE INDEX revision_parent ON revision (parent);
CREATE TABLE head (
  only_one INTEGER PRIMARY KEY CHECK (only_one = 1),
  revision INTEGER NOT NULL REFERENCES revision (id),
  tip INTEGER NOT NULL REFERENCES revision (id),
  change INTEGER NOT NULL
);
CREATE TABLE command (
  id TEXT PRIMARY KEY,
  change INTEGER NOT NULL
) WITHOUT ROWID;
CREATE TABLE attachment (
  name TEXT PRIMARY KEY,
  body BLOB NOT NULL,
  bytes INTEGER NOT NULL
);
CREATE TABLE written_by (
  only_one INTEGER PRIMARY KEY CHECK (only_one = 1),
  program TEXT NOT NULL
);
)",
};

Result<bool> set_layout(Database& database, int layout, std::string_view program) {
  auto said = database.run(fmt::format("PRAGMA user_version = {}", layout).c_str());
  if (!said) return said;
  auto by = database.prepare("INSERT OR REPLACE INTO written_by VALUES (1, ?)");
  if (!by) return tl::unexpected<Error>(by.error());
  auto done = by->bind(1, program).step();
  if (!done) return done;
  return true;
}

Result<bool> take_steps(Database& database, int from, std::string_view program) {
  for (int step = from; step < kLayout; ++step) {
    auto done = database.run(kSteps[static_cast<std::size_t>(step)]);
    if (!done) return done;
  }
  return set_layout(database, kLayout, program);
}

}  // namespace

Result<bool> make_layout(Database& database, std::string_view program) {
  auto said = database.run(fmt::format("PRAGMA application_id = {}", kApplicationId).c_str());
  if (!said) return said;
  return take_steps(database, 0, program);
}

Result<bool> bring_up(Database& database, const std::string& path, std::string_view program,
                      bool read_only) {
  const auto application = database.number("PRAGMA application_id");
  if (!application) return tl::unexpected<Error>(application.error());
  const auto layout = database.number("PRAGMA user_version");
  if (!layout) return tl::unexpected<Error>(layout.error());
  if (*application != kApplicationId || *layout < 1) {
    return fail(ErrorCode::kCannotRead, path, fmt::format("{} is not a garden of Spadework.", path),
                "A garden file ends in .garden; a document, a text file, in .toml.");
  }
  if (*layout > kLayout) {
    std::string writer = "a newer Spadework";
    if (auto by = database.prepare("SELECT program FROM written_by"); by) {
      if (const auto row = by->step(); row && *row) writer = by->text(0);
    }
    return fail(ErrorCode::kNewerFile, path,
                fmt::format("{} was last saved by {}; this is {}.", path, writer, program),
                "Take that Spadework or a newer one. The file was left as it is.");
  }
  if (*layout == kLayout || read_only) return true;
  auto work = Transaction::begin(database);
  if (!work) return tl::unexpected<Error>(work.error());
  auto done = take_steps(database, static_cast<int>(*layout), program);
  if (!done) return done;
  return work->keep();
}

}  // namespace spadework::store
