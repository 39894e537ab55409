#include "store/database.h"

#include <fmt/format.h>
#include <sqlite3.h>
#include <unistd.h>

#include <utility>

#include "base/check.h"

namespace spadework::store {
namespace {

constexpr int kPatience_ms = 5000;  // with another program that writes to the same file

std::string percent_coded(const std::string& path) {
  std::string out;
  for (const char c : path) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
                       c == '/' || c == '-' || c == '_' || c == '.';
    out += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
  }
  return out;
}

}  // namespace

Statement::Statement(Database& database, sqlite3_stmt* statement)
    : database_(&database), statement_(statement, sqlite3_finalize) {}

Statement& Statement::bind(int place, std::int64_t value) {
  SW_CHECK_EQ(sqlite3_bind_int64(statement_.get(), place, value), SQLITE_OK);
  return *this;
}

Statement& Statement::bind(int place, std::string_view text) {
  SW_CHECK_EQ(sqlite3_bind_text64(statement_.get(), place, text.data(), text.size(),
                                  SQLITE_TRANSIENT, SQLITE_UTF8),
              SQLITE_OK);
  return *this;
}

Statement& Statement::bind_bytes(int place, std::string_view bytes) {
  SW_CHECK_EQ(
      sqlite3_bind_blob64(statement_.get(), place, bytes.data(), bytes.size(), SQLITE_TRANSIENT),
      SQLITE_OK);
  return *this;
}

Result<bool> Statement::step() {
  const int code = sqlite3_step(statement_.get());
  if (code == SQLITE_ROW) return true;
  if (code == SQLITE_DONE) return false;
  return tl::unexpected<Error>(database_->error());
}

std::int64_t Statement::number(int column) const {
  return sqlite3_column_int64(statement_.get(), column);
}

std::string Statement::text(int column) const { return bytes(column); }

std::string Statement::bytes(int column) const {
  const void* from = sqlite3_column_blob(statement_.get(), column);
  const auto n = static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column));
  return from == nullptr ? std::string() : std::string(static_cast<const char*>(from), n);
}

Database::Database(std::string path, std::string called)
    : path_(std::move(path)), called_(std::move(called)), handle_(nullptr, sqlite3_close) {}

Database::~Database() = default;

Result<std::unique_ptr<Database>> Database::open(const std::string& path, OpenAs as,
                                                 const std::string& called) {
  std::unique_ptr<Database> database(new Database(path, called.empty() ? path : called));
  if (auto opened = database->reopen(as); !opened) return tl::unexpected<Error>(opened.error());
  return database;
}

Result<bool> Database::reopen(OpenAs as) {
  handle_.reset();
  // A file on read-only media has no room beside it for a journal: it is taken as it is.
  const bool as_it_is = as == OpenAs::kReadable && ::access((path_ + "-wal").c_str(), F_OK) != 0;
  const std::string name = "file:" + percent_coded(path_) + (as_it_is ? "?immutable=1" : "");
  const int flags = as == OpenAs::kNew        ? SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE
                    : as == OpenAs::kWritable ? SQLITE_OPEN_READWRITE
                                              : SQLITE_OPEN_READONLY;
  sqlite3* handle = nullptr;
  const int code = sqlite3_open_v2(
      name.c_str(), &handle, flags | SQLITE_OPEN_URI | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE,
      nullptr);
  handle_.reset(handle);
  if (code != SQLITE_OK) return tl::unexpected<Error>(error());
  sqlite3_busy_timeout(handle, kPatience_ms);
  return true;
}

Result<Statement> Database::prepare(std::string_view sql) {
  sqlite3_stmt* statement = nullptr;
  const int code = sqlite3_prepare_v2(handle_.get(), sql.data(), static_cast<int>(sql.size()),
                                      &statement, nullptr);
  if (code != SQLITE_OK) return tl::unexpected<Error>(error());
  return Statement(*this, statement);
}

Result<bool> Database::run(const char* sql) {
  if (sqlite3_exec(handle_.get(), sql, nullptr, nullptr, nullptr) == SQLITE_OK) return true;
  return tl::unexpected<Error>(error());
}

Result<std::int64_t> Database::number(std::string_view sql) {
  auto statement = prepare(sql);
  if (!statement) return tl::unexpected<Error>(statement.error());
  const auto row = statement->step();
  if (!row) return tl::unexpected<Error>(row.error());
  return *row ? statement->number(0) : 0;
}

std::int64_t Database::last_id() const { return sqlite3_last_insert_rowid(handle_.get()); }

Error may_only_be_read(const std::string& path) {
  return {ErrorCode::kReadOnly, path, fmt::format("{} may only be read.", path),
          "Allow writing to the file and its folder, or work on a copy."};
}

Error disk_is_full(const std::string& path) {
  return {ErrorCode::kCannotWrite, path,
          "The disk is full or takes no more: this change is not in the file.",
          "Everything up to here is safe. Make some room on the disk, then try again."};
}

Error Database::error() const {
  const int code = sqlite3_errcode(handle_.get());
  // How the disk refuses is not always known: a quota, a limit on files, no room for SQLite's own.
  if (code == SQLITE_IOERR_WRITE || code == SQLITE_IOERR_SHMSIZE) return disk_is_full(called_);
  constexpr int kKind = 0xff;  // of an extended code
  switch (code & kKind) {
    case SQLITE_FULL:
      return disk_is_full(called_);
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return may_only_be_read(called_);
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return {ErrorCode::kCannotWrite, called_, "Another program is writing to this garden.",
              "Close the other program, then try again."};
    case SQLITE_NOTADB:
    case SQLITE_CORRUPT:
      return {ErrorCode::kCannotRead, called_, fmt::format("{} is damaged, or no garden.", called_),
              "Take the last good copy of the file. Keep this one: something may be saved from "
              "it."};
    case SQLITE_CANTOPEN:
      return {ErrorCode::kCannotRead, called_, fmt::format("Cannot open {}.", called_),
              "Is it there, and may it be read?"};
    default:
      return {ErrorCode::kCannotWrite, called_,
              fmt::format("{} could not be read or written ({}).", called_,
                          sqlite3_errmsg(handle_.get())),
              "Is the disk in order? Everything that was saved before is still there."};
  }
}

Result<Transaction> Transaction::begin(Database& database) {
  if (auto begun = database.run("BEGIN IMMEDIATE"); !begun)
    return tl::unexpected<Error>(begun.error());
  return Transaction(database);
}

Transaction::Transaction(Transaction&& other) noexcept
    : database_(std::exchange(other.database_, nullptr)) {}

Transaction::~Transaction() {
  if (database_ != nullptr) (void)database_->run("ROLLBACK");
}

Result<bool> Transaction::keep() {
  auto kept = database_->run("COMMIT");
  if (kept) database_ = nullptr;
  return kept;
}

}  // namespace spadework::store
