// Files beside the document, in the garden's own file.
#include <fmt/format.h>

#include <algorithm>

#include "store/compress.h"
#include "store/database.h"
#include "store/store.h"

namespace spadework::store {
namespace {

template <class T>
tl::unexpected<Error> pass_on(const Result<T>& failed) {
  return tl::unexpected<Error>(failed.error());
}

/// `days.csv`, `days-2.csv`, …
std::string numbered(std::string_view name, int nth) {
  if (nth == 1) return std::string(name);
  const std::size_t dot = std::min(name.rfind('.'), name.size());
  return fmt::format("{}-{}{}", name.substr(0, dot), nth, name.substr(dot));
}

}  // namespace

Result<std::string> GardenFile::attachment(std::string_view name) {
  auto row = database_->prepare("SELECT body, bytes FROM attachment WHERE name = ?");
  if (!row) return pass_on(row);
  const auto there = row->bind(1, name).step();
  if (!there) return pass_on(there);
  if (!*there)
    return fail(ErrorCode::kUnknownId, path_,
                fmt::format("The file {} is not with this garden.", name),
                "Add it to the garden, or take its name out of the document.");
  return restored(row->bytes(0), row->number(1));
}

Result<std::string> GardenFile::attach(std::string_view name, std::string_view bytes) {
  if (bytes.size() > kMostAttached_bytes)
    return fail(ErrorCode::kTooLarge, path_,
                fmt::format("{} is longer than {} MB.", name, kMostAttached_bytes / 1'000'000),
                "Is it the right file? A weather file has a few MB.");
  if (auto may = make_writable(); !may) return pass_on(may);
  auto work = Transaction::begin(*database_);
  if (!work) return pass_on(work);
  constexpr int kMostAlike = 1000;
  for (int nth = 1;; ++nth) {
    std::string free = numbered(name, nth);
    const auto other = attachment(free);
    if (other && *other == bytes) return free;
    const bool is_free = !other && other.error().code == ErrorCode::kUnknownId;
    if (!is_free && nth < kMostAlike) continue;  // taken, or damaged
    if (!is_free && !other) return pass_on(other);
    if (!is_free)
      return fail(ErrorCode::kTooLarge, path_,
                  fmt::format("The garden has {} files called {}.", kMostAlike, name),
                  "Give this one another name.");
    auto row = database_->prepare("INSERT INTO attachment VALUES (?, ?, ?)");
    if (!row) return pass_on(row);
    row->bind(1, free).bind_bytes(2, compressed(bytes));
    row->bind(3, static_cast<std::int64_t>(bytes.size()));
    if (auto done = row->step(); !done) return pass_on(done);
    if (auto kept = work->keep(); !kept) return pass_on(kept);
    return free;
  }
}

}  // namespace spadework::store
