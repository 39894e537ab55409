#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <utility>

#include "store/compress.h"
#include "store/database.h"
#include "store/layout.h"
#include "store/store.h"

namespace spadework::store {
namespace {

template <class T>
tl::unexpected<Error> pass_on(const Result<T>& failed) {
  return tl::unexpected<Error>(failed.error());
}

/// UTC, ISO 8601, to the second.
std::string now() {
  const std::time_t t = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm utc{};
  ::gmtime_r(&t, &utc);
  char text[32];
  std::strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &utc);
  return text;
}

Result<bool> prepare_connection(Database& database, bool read_only) {
  auto done = database.run("PRAGMA foreign_keys = ON");
  if (!done || read_only) return done;
  done = database.run("PRAGMA journal_mode = WAL");
  if (!done) return done;
  return database.run("PRAGMA synchronous = FULL");
}

/// Carries out a statement without an answer.
Result<bool> execute(Result<Statement> statement) {
  if (!statement) return pass_on(statement);
  auto done = statement->step();
  if (!done) return done;
  return true;
}

bool is_there(const std::string& path) {
  struct stat info {};
  return ::stat(path.c_str(), &info) == 0;
}

std::string folder_of(const std::string& path) {
  const std::size_t slash = path.find_last_of('/');
  return slash == std::string::npos ? "." : path.substr(0, slash + 1);
}

bool may_write_to(const std::string& file_or_folder) {
  return ::faccessat(AT_FDCWD, file_or_folder.c_str(), W_OK, AT_EACCESS) == 0;
}

bool may_write(const std::string& path) {
  return may_write_to(path) && may_write_to(folder_of(path));
}

/// As of the file that is to be made, not of the one that it is made in.
Error of_new_file(Error error, const std::string& path) {
  if (error.code == ErrorCode::kCannotRead) {
    error.code = ErrorCode::kCannotWrite;
    error.message = fmt::format("Cannot write {}.", path);
    error.hint = "Does the folder exist, and may you write there?";
  }
  error.where = path;
  return error;
}

/// A database just opened, for its work.
Result<bool> make_ready(Database& database, const std::string& path, std::string_view program,
                        bool read_only) {
  if (auto up = bring_up(database, path, program, read_only); !up) return up;
  return prepare_connection(database, read_only);
}

Result<std::unique_ptr<Database>> opened(const std::string& path, std::string_view program,
                                         bool read_only) {
  auto database = Database::open(path, read_only ? OpenAs::kReadable : OpenAs::kWritable);
  if (!database) return pass_on(database);
  if (auto ready = make_ready(**database, path, program, read_only); !ready) return pass_on(ready);
  return database;
}

/// What was written last stands in a file beside it, and there is no room to take it over.
Error not_closed(const std::string& path) {
  return {ErrorCode::kCannotRead, path,
          fmt::format("{} was not closed in order, and its folder may only be read.", path),
          fmt::format("Copy it, together with {}-wal, to where you may write, and open it there.",
                      path)};
}

tl::unexpected<Error> no_file(const std::string& path) {
  return fail(ErrorCode::kCannotRead, path, fmt::format("There is no file {}.", path),
              "Is the name right, and are you in the right folder?");
}

/// A copy that is gone when it is closed, or the program ends.
Result<std::unique_ptr<Database>> opened_as_copy(const std::string& path) {
  namespace fs = std::filesystem;
  std::error_code error;
  std::string folder = (fs::temp_directory_path(error) / "spadework-XXXXXX").string();
  const bool made = ::mkdtemp(folder.data()) != nullptr;
  const std::string copy = folder + "/copy.garden";
  const bool copied = made && fs::copy_file(path, copy, error) &&
                      fs::copy_file(path + "-wal", copy + "-wal", error);
  auto database = Database::open(copy, OpenAs::kReadable, path);
  const bool read = copied && database && (*database)->number("PRAGMA user_version").has_value();
  if (made) fs::remove_all(folder, error);
  if (copied && database && !read) return tl::unexpected<Error>((*database)->error());
  if (read) return database;
  return fail(ErrorCode::kCannotRead, path,
              fmt::format("{} was not closed in order, and it cannot be copied to be read.", path),
              fmt::format("Is there room in {}?", fs::path(folder).parent_path().string()));
}

/// The step of undo before `tip` that follows `revision`: the way back to it.
constexpr const char* kNextOnTheWay =
    "WITH RECURSIVE way (id, parent) AS ("
    " SELECT id, parent FROM revision WHERE id = (SELECT tip FROM head)"
    " UNION ALL SELECT r.id, r.parent FROM revision r JOIN way ON r.id = way.parent"
    " WHERE way.id <> (SELECT revision FROM head))"
    "SELECT r.id, r.says FROM way JOIN revision r ON r.id = way.id"
    " WHERE way.parent = (SELECT revision FROM head)";

}  // namespace

GardenFile::GardenFile(std::string path, std::string program, std::unique_ptr<Database> database,
                       Access access)
    : path_(std::move(path)),
      program_(std::move(program)),
      database_(std::move(database)),
      access_(access) {}
GardenFile::GardenFile(GardenFile&&) noexcept = default;
GardenFile& GardenFile::operator=(GardenFile&&) noexcept = default;
GardenFile::~GardenFile() = default;

Result<GardenFile> GardenFile::create(const std::string& path, std::string_view text,
                                      std::string_view title, std::string_view program) {
  if (is_there(path)) {
    return fail(ErrorCode::kConflict, path, fmt::format("There is a file {} already.", path),
                "Take another name.");
  }
  if (is_there(folder_of(path)) && !may_write_to(folder_of(path)))
    return tl::unexpected<Error>(may_only_be_read(folder_of(path)));
  // Made beside it and moved into place: a file of this name is a whole garden.
  const std::string beside = fmt::format("{}.{}.part", path, ::getpid());
  const auto made = [&]() -> Result<bool> {
    auto database = Database::open(beside, OpenAs::kNew);
    if (!database) return pass_on(database);
    if (auto done = (*database)->run("PRAGMA synchronous = FULL"); !done) return done;
    auto work = Transaction::begin(**database);
    if (!work) return pass_on(work);
    if (auto done = make_layout(**database, program); !done) return done;
    GardenFile file(beside, std::string(program), std::move(*database), Access::kWrites);
    if (auto done = file.add_revision(0, text, "Begun"); !done) return done;
    auto title_set = file.database_->prepare("UPDATE revision SET title = ?");
    if (title_set) title_set->bind(1, title);
    if (auto done = execute(std::move(title_set)); !done) return done;
    if (auto done = file.database_->run("INSERT INTO head VALUES (1, 1, 1, 1)"); !done) return done;
    return work->keep();
  }();
  if (!made || std::rename(beside.c_str(), path.c_str()) != 0) {
    std::remove(beside.c_str());
    std::remove((beside + "-journal").c_str());
    if (!made) return tl::unexpected<Error>(of_new_file(made.error(), path));
    return fail(ErrorCode::kCannotWrite, path, fmt::format("Cannot write {}.", path),
                "Does the folder exist, and may you write there?");
  }
  return open(path, program);
}

Result<GardenFile> GardenFile::open(const std::string& path, std::string_view program) {
  if (!is_there(path)) return no_file(path);
  const bool read_only = !may_write(path);
  auto database = opened(path, program, read_only);
  if (database)
    return GardenFile(path, std::string(program), std::move(*database),
                      read_only ? Access::kReads : Access::kWrites);
  if (read_only && database.error().code == ErrorCode::kCannotRead && is_there(path + "-wal"))
    return tl::unexpected<Error>(not_closed(path));
  if (read_only || database.error().code != ErrorCode::kCannotWrite) return pass_on(database);
  // A disk that is full, say: what is there can be looked at all the same.
  const Error why = database.error();
  database = opened(path, program, true);
  if (!database) return tl::unexpected<Error>(why);
  return GardenFile(path, std::string(program), std::move(*database), Access::kReads);
}

Result<GardenFile> GardenFile::look(const std::string& path, std::string_view program) {
  if (!is_there(path)) return no_file(path);
  // Without the index of what was written last, reading would make one beside the file. It is made
  // beside a copy instead; nobody has the file open then, or there would be one.
  const bool lacks_index = is_there(path + "-wal") && !is_there(path + "-shm");
  auto database = lacks_index ? opened_as_copy(path) : Database::open(path, OpenAs::kReadable);
  if (!database) return pass_on(database);
  if (auto ready = make_ready(**database, path, program, true); !ready) return pass_on(ready);
  return GardenFile(path, std::string(program), std::move(*database), Access::kLooks);
}

bool GardenFile::read_only() const { return access_ == Access::kLooks || !may_write(path_); }

/// Before a change. Permissions are asked each time: a file that is open already could be written
/// against its owner's word.
Result<bool> GardenFile::make_writable() {
  if (read_only()) return tl::unexpected<Error>(may_only_be_read(path_));
  if (access_ == Access::kWrites) return true;
  const auto reopened = [&](OpenAs as) -> Result<bool> {
    if (auto done = database_->reopen(as); !done) return done;
    return make_ready(*database_, path_, program_, as == OpenAs::kReadable);
  };
  auto done = reopened(OpenAs::kWritable);
  access_ = done ? Access::kWrites : Access::kReads;
  if (!done) (void)reopened(OpenAs::kReadable);
  return done;
}

Result<Head> GardenFile::head() {
  auto row = database_->prepare(
      "SELECT r.id, h.change, r.title, r.made, CASE WHEN r.parent IS NULL THEN '' ELSE r.says END "
      "FROM head h JOIN revision r ON r.id = h.revision");
  if (!row) return pass_on(row);
  const auto there = row->step();
  if (!there) return pass_on(there);
  if (!*there)
    return fail(ErrorCode::kCannotRead, path_, fmt::format("{} is damaged.", path_),
                "Take the last good copy of the file.");
  Head head{row->number(0), row->number(1), row->text(2), row->text(4), "", row->text(3)};
  auto next = database_->prepare(kNextOnTheWay);
  if (!next) return pass_on(next);
  const auto more = next->step();
  if (!more) return pass_on(more);
  if (*more) head.redo = next->text(1);
  return head;
}

Result<std::string> GardenFile::text() {
  const auto revision = database_->number("SELECT revision FROM head");
  if (!revision) return pass_on(revision);
  return text_of(*revision);
}

Result<std::string> GardenFile::text_of(std::int64_t revision) {
  auto row = database_->prepare("SELECT text, bytes FROM revision WHERE id = ?");
  if (!row) return pass_on(row);
  const auto there = row->bind(1, revision).step();
  if (!there) return pass_on(there);
  if (!*there)
    return fail(ErrorCode::kUnknownId, path_, "There is no such state of the garden.",
                "Choose one of those that are listed.");
  return restored(row->bytes(0), row->number(1));
}

/// Carries out a command once, all or nothing.
template <class Change>
Result<Head> GardenFile::change(const Command& command, Change change) {
  if (auto may = make_writable(); !may) return pass_on(may);
  {
    auto work = Transaction::begin(*database_);
    if (!work) return pass_on(work);
    auto known = database_->prepare("SELECT 1 FROM command WHERE id = ?");
    if (!known) return pass_on(known);
    const auto again = known->bind(1, command.id).step();
    if (!again) return pass_on(again);
    if (!*again) {
      const auto now_at = database_->number("SELECT change FROM head");
      if (!now_at) return pass_on(now_at);
      if (*now_at != command.change)
        return fail(ErrorCode::kStale, path_, "The garden was changed in another window meanwhile.",
                    "Look at it as it is now, then make the change again.");
      if (auto done = change(); !done) return pass_on(done);
      if (auto done = database_->run("UPDATE head SET change = change + 1"); !done)
        return pass_on(done);
      auto note = database_->prepare("INSERT INTO command VALUES (?, ?)");
      if (note) note->bind(1, command.id).bind(2, command.change + 1);
      if (auto done = execute(std::move(note)); !done) return pass_on(done);
      if (auto kept = work->keep(); !kept) return pass_on(kept);
    }
  }
  return head();
}

Result<bool> GardenFile::add_revision(std::int64_t parent, std::string_view text,
                                      std::string_view says) {
  auto row = database_->prepare(
      "INSERT INTO revision (parent, text, bytes, title, says, made) "
      "VALUES (NULLIF(?, 0), ?, ?, '', ?, ?)");
  if (row) {
    row->bind(1, parent).bind_bytes(2, compressed(text));
    row->bind(3, static_cast<std::int64_t>(text.size())).bind(4, says).bind(5, now());
  }
  return execute(std::move(row));
}

Result<bool> GardenFile::move_head(std::int64_t revision) {
  auto row = database_->prepare("UPDATE head SET revision = ?");
  if (row) row->bind(1, revision);
  return execute(std::move(row));
}

Result<Head> GardenFile::write(const Command& command, std::string_view text,
                               std::string_view title, std::string_view says) {
  return change(command, [&]() -> Result<bool> {
    const auto at = database_->number("SELECT revision FROM head");
    if (!at) return pass_on(at);
    const auto before = text_of(*at);
    if (!before) return pass_on(before);
    if (*before == text) return true;
    if (auto added = add_revision(*at, text, says); !added) return added;
    const std::int64_t made = database_->last_id();
    auto named = database_->prepare("UPDATE revision SET title = ? WHERE id = ?");
    if (named) named->bind(1, title).bind(2, made);
    if (auto done = execute(std::move(named)); !done) return done;
    auto moved = database_->prepare("UPDATE head SET revision = ?1, tip = ?1");
    if (moved) moved->bind(1, made);
    return execute(std::move(moved));
  });
}

Result<Head> GardenFile::undo(const Command& command) {
  return change(command, [&]() -> Result<bool> {
    const auto parent = database_->number(
        "SELECT IFNULL(r.parent, 0) FROM head h JOIN revision r ON r.id = h.revision");
    if (!parent) return pass_on(parent);
    if (*parent == 0)
      return fail(ErrorCode::kNoAnswer, path_, "This is where the garden began.",
                  "There is nothing further to undo.");
    return move_head(*parent);
  });
}

Result<Head> GardenFile::redo(const Command& command) {
  return change(command, [&]() -> Result<bool> {
    const auto next = database_->number(kNextOnTheWay);
    if (!next) return pass_on(next);
    if (*next == 0)
      return fail(ErrorCode::kNoAnswer, path_, "There is nothing to bring back.",
                  "Nothing was undone, or something else was done since.");
    return move_head(*next);
  });
}

Result<Head> GardenFile::name(const Command& command, std::string_view name) {
  return change(command, [&]() -> Result<bool> {
    auto other = database_->prepare("UPDATE revision SET name = NULL WHERE name = ?");
    if (other) other->bind(1, name);
    if (auto done = execute(std::move(other)); !done) return done;
    auto own = database_->prepare(
        "UPDATE revision SET name = NULLIF(?, '') WHERE id = (SELECT revision FROM head)");
    if (own) own->bind(1, name);
    return execute(std::move(own));
  });
}

Result<Head> GardenFile::bring_back(const Command& command, std::int64_t revision) {
  const auto text = text_of(revision);
  if (!text) return pass_on(text);
  const auto told = [&]() -> Result<std::pair<std::string, std::string>> {
    auto row = database_->prepare("SELECT title, IFNULL(name, made) FROM revision WHERE id = ?");
    if (!row) return pass_on(row);
    const auto there = row->bind(1, revision).step();
    if (!there) return pass_on(there);
    return std::pair(row->text(0), row->text(1));
  }();
  if (!told) return pass_on(told);
  return write(command, *text, told->first, fmt::format("Brought back: {}", told->second));
}

Result<std::vector<Revision>> GardenFile::revisions(int most) {
  auto row = database_->prepare(
      "SELECT id, IFNULL(parent, 0), says, made, IFNULL(name, '') FROM revision "
      "WHERE name IS NOT NULL OR id > (SELECT MAX(id) FROM revision) - ? ORDER BY id DESC");
  if (!row) return pass_on(row);
  row->bind(1, std::int64_t{most});
  std::vector<Revision> out;
  for (;;) {
    const auto more = row->step();
    if (!more) return pass_on(more);
    if (!*more) return out;
    out.push_back({row->number(0), row->number(1), row->text(2), row->text(3), row->text(4)});
  }
}

Result<bool> GardenFile::is_whole() {
  auto row = database_->prepare("PRAGMA integrity_check");
  if (!row) return pass_on(row);
  const auto there = row->step();
  if (!there) return pass_on(there);
  const bool whole = row->text(0) == "ok";
  auto strays = database_->prepare("PRAGMA foreign_key_check");
  if (!strays) return pass_on(strays);
  const auto stray = strays->step();
  if (!stray) return pass_on(stray);
  return whole && !*stray;
}

}  // namespace spadework::store
