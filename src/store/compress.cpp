#include "store/compress.h"

#include <zlib.h>

#include "base/check.h"
#include "store/store.h"

namespace spadework::store {

std::string compressed(std::string_view bytes) {
  uLongf room = compressBound(bytes.size());
  std::string out(room, '\0');
  const int code =
      compress2(reinterpret_cast<Bytef*>(out.data()), &room,
                reinterpret_cast<const Bytef*>(bytes.data()), bytes.size(), Z_DEFAULT_COMPRESSION);
  SW_CHECK_EQ(code, Z_OK);
  out.resize(room);
  return out;
}

Result<std::string> restored(std::string_view bytes, std::int64_t size) {
  const bool can_be = size >= 0 && size <= std::int64_t{kMostAttached_bytes};
  std::string out(can_be ? static_cast<std::size_t>(size) : 0, '\0');
  uLongf room = out.size();
  const int code = uncompress(reinterpret_cast<Bytef*>(out.data()), &room,
                              reinterpret_cast<const Bytef*>(bytes.data()), bytes.size());
  if (!can_be || code != Z_OK || room != out.size()) {
    return fail(ErrorCode::kCannotRead, "", "A saved state of the garden is damaged.",
                "Take the last good copy of the file.");
  }
  return out;
}

}  // namespace spadework::store
