// SQLite behind values: statements that end themselves, errors in words. For the store room alone.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"

struct sqlite3;
struct sqlite3_stmt;

namespace spadework::store {

class Database;

/// One prepared statement; places to fill are numbered from 1, columns from 0.
class Statement {
 public:
  Statement& bind(int place, std::int64_t value);
  Statement& bind(int place, std::string_view text);
  Statement& bind_bytes(int place, std::string_view bytes);
  /// True while there is a row. Errors: the database's.
  [[nodiscard]] Result<bool> step();
  [[nodiscard]] std::int64_t number(int column) const;
  [[nodiscard]] std::string text(int column) const;
  [[nodiscard]] std::string bytes(int column) const;

 private:
  friend class Database;
  Statement(Database& database, sqlite3_stmt* statement);
  Database* database_;
  std::unique_ptr<sqlite3_stmt, int (*)(sqlite3_stmt*)> statement_;
};

enum class OpenAs { kNew, kWritable, kReadable };

class Database {
 public:
  /// In: how messages call the file, if not by its path.
  /// Errors: kCannotRead, kCannotWrite for a new file.
  [[nodiscard]] static Result<std::unique_ptr<Database>> open(const std::string& path, OpenAs as,
                                                              const std::string& called = "");
  /// Closes, then opens the same file otherwise: SQLite lets the connections of a process share
  /// what one of them opened to be read. Where that fails, all that follows does.
  [[nodiscard]] Result<bool> reopen(OpenAs as);
  ~Database();
  Database(const Database&) = delete;
  Database& operator=(const Database&) = delete;

  /// Errors: a statement that is none is a broken invariant, all else the database's.
  [[nodiscard]] Result<Statement> prepare(std::string_view sql);
  /// Statements without answers, one after the other.
  [[nodiscard]] Result<bool> run(const char* sql);
  /// The first column of the first row.
  [[nodiscard]] Result<std::int64_t> number(std::string_view sql);
  [[nodiscard]] std::int64_t last_id() const;
  /// What went wrong last, in a grower's words.
  [[nodiscard]] Error error() const;

 private:
  Database(std::string path, std::string called);
  std::string path_, called_;
  std::unique_ptr<sqlite3, int (*)(sqlite3*)> handle_;
};

[[nodiscard]] Error may_only_be_read(const std::string& path);
[[nodiscard]] Error disk_is_full(const std::string& path);

/// All or nothing: what was not kept by its end is taken back.
class Transaction {
 public:
  [[nodiscard]] static Result<Transaction> begin(Database& database);
  Transaction(Transaction&& other) noexcept;
  Transaction& operator=(Transaction&&) = delete;
  ~Transaction();
  [[nodiscard]] Result<bool> keep();

 private:
  explicit Transaction(Database& database) : database_(&database) {}
  Database* database_;
};

}  // namespace spadework::store
