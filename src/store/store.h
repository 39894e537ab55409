// Front door of the store room: one garden in one file, with every state that it has been in.
//
//   auto file = GardenFile::open("ker-avel.garden");
//   auto now = file->head();                       // what the document is now
//   auto next = file->write({"id-7", now->change}, text, "Medlar moved");
//   auto back = file->undo({"id-8", next->change});
//
// The file is an SQLite database. Each revision is the whole document, compressed; undo moves a
// pointer. What write() has answered is on the disk.
#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace spadework::store {

class Database;

/// The newest layout of a garden file that this program knows.
inline constexpr int kLayout = 1;
/// Of one file beside the document, before it is compressed.
inline constexpr std::size_t kMostAttached_bytes = std::size_t{64} << 20;
inline constexpr const char* kFileEnding = ".garden";

/// Where a garden stands.
struct Head {
  std::int64_t revision = 0;
  /// Rises with every change, undo and redo: tells whether someone else was quicker.
  std::int64_t change = 0;
  std::string title;       // of the garden, for lists
  std::string undo, redo;  // what each would take back or bring again; empty: nothing
  std::string made;        // when the revision was made, UTC, ISO 8601
};

/// A change's sender and what it was made on. The same id may come twice: the second time nothing
/// happens, and the head as it is now comes back.
struct Command {
  std::string id;
  std::int64_t change = 0;  // Head::change as the sender knew it
};

struct Revision {
  std::int64_t id = 0, parent = 0;  // parent 0: the first
  std::string says, made, name;     // name: empty unless it has one
};

class GardenFile {
 public:
  /// A new file with one revision. Errors: kCannotWrite; kConflict when there is such a file.
  [[nodiscard]] static Result<GardenFile> create(const std::string& path, std::string_view text,
                                                 std::string_view title, std::string_view program);
  /// Brings a file of an earlier layout up to this one. A file that cannot be written, be it for a
  /// full disk, opens to be read, and becomes writable as soon as it can be. Errors: kCannotRead;
  /// kNewerFile for a file that a newer program wrote, with its name.
  [[nodiscard]] static Result<GardenFile> open(const std::string& path, std::string_view program);
  /// Opens a file to be read and leaves no trace: nothing is made, brought up or written, in the
  /// file or beside it, whatever is allowed; what another program has written until then is seen.
  /// All that writes is refused. Errors: as of `open`.
  [[nodiscard]] static Result<GardenFile> look(const std::string& path, std::string_view program);
  GardenFile(GardenFile&&) noexcept;
  GardenFile& operator=(GardenFile&&) noexcept;
  ~GardenFile();

  /// Whether it may only be read now: permissions can change while it is open.
  [[nodiscard]] bool read_only() const;
  [[nodiscard]] const std::string& path() const { return path_; }

  // Errors of all that follows: those of the disk; kUnknownId for a revision that is not there.
  [[nodiscard]] Result<Head> head();
  /// The document at the head, or at a revision.
  [[nodiscard]] Result<std::string> text();
  [[nodiscard]] Result<std::string> text_of(std::int64_t revision);

  // Errors of all that write: kStale when the garden has changed since the command's; kReadOnly.
  /// A new revision, unless the text is the head's.
  [[nodiscard]] Result<Head> write(const Command& command, std::string_view text,
                                   std::string_view title, std::string_view says);
  /// Errors: kNoAnswer when there is nothing to undo or redo.
  [[nodiscard]] Result<Head> undo(const Command& command);
  [[nodiscard]] Result<Head> redo(const Command& command);
  /// Gives the head's revision a name, or takes it away (empty); a name belongs to one revision.
  [[nodiscard]] Result<Head> name(const Command& command, std::string_view name);
  /// An earlier revision's document as a new revision.
  [[nodiscard]] Result<Head> bring_back(const Command& command, std::int64_t revision);

  /// The newest first; `most` of them, and all that have a name.
  [[nodiscard]] Result<std::vector<Revision>> revisions(int most);

  // Files beside the document, such as its weather file. A name belongs to its bytes for good, so
  // that every state of the garden keeps the file that it was made with.
  /// Errors: kUnknownId when there is none of that name.
  [[nodiscard]] Result<std::string> attachment(std::string_view name);
  /// Out: the name that it has now: the one given, or with a number (`days-2.csv`) where another
  /// file has that one. The same file twice is one. Errors: kTooLarge.
  [[nodiscard]] Result<std::string> attach(std::string_view name, std::string_view bytes);

  /// Whether the database finds itself whole.
  [[nodiscard]] Result<bool> is_whole();

 private:
  enum class Access { kWrites, kReads, kLooks };
  GardenFile(std::string path, std::string program, std::unique_ptr<Database> database,
             Access access);
  [[nodiscard]] Result<bool> make_writable();
  template <class Change>
  Result<Head> change(const Command& command, Change change);
  Result<bool> add_revision(std::int64_t parent, std::string_view text, std::string_view says);
  Result<bool> move_head(std::int64_t revision);

  std::string path_, program_;
  std::unique_ptr<Database> database_;
  Access access_ = Access::kWrites;  // as it was opened
};

/// How the document of a garden file is named, as in `where` of its problems: that of
/// `plots/ker-avel.garden` is `ker-avel.toml`.
[[nodiscard]] std::string document_name(std::string_view path);

/// The gardens in a folder: paths by file name, in order. A folder that is not there has none.
[[nodiscard]] Result<std::vector<std::string>> gardens_in(const std::string& folder);
/// $XDG_DATA_HOME/spadework, or ~/.local/share/spadework. Errors: kCannotWrite without a home.
[[nodiscard]] Result<std::string> data_folder();
/// Makes a folder and those that it lies in. Errors: kCannotWrite.
[[nodiscard]] Result<bool> make_folder(const std::string& folder);
/// A file name for a title that no file in the folder has: `ker-avel.garden`, `ker-avel-2.garden`.
[[nodiscard]] std::string free_path(const std::string& folder, std::string_view title);

}  // namespace spadework::store
