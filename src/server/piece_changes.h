// What makes one list of pieces, each with an id of its own, another. For the server room alone.
#pragma once

#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

namespace spadework::server {

/// Done in this order: those that are gone are taken away; then those to be put, the last one
/// first, stand before the piece that follows them, in the place of the one of their id.
struct PieceChanges {
  std::vector<std::string> gone;
  std::vector<std::size_t> put;  // places in the list as it is to be
};

template <class Piece>
[[nodiscard]] const std::string& id_after(const std::vector<Piece>& pieces, std::size_t place) {
  static const std::string kNone;
  return place + 1 < pieces.size() ? pieces[place + 1].id : kNone;
}

/// Nothing if pieces that stay stand in another order than before.
template <class Piece, class Same>
[[nodiscard]] std::optional<PieceChanges> piece_changes(const std::vector<Piece>& before,
                                                        const std::vector<Piece>& now,
                                                        const Same& same) {
  std::unordered_map<std::string, const Piece*> then, later;
  for (const Piece& piece : before) then.emplace(piece.id, &piece);
  for (const Piece& piece : now) later.emplace(piece.id, &piece);
  PieceChanges out;
  std::vector<const std::string*> stay;
  for (const Piece& piece : before) {
    if (later.count(piece.id) > 0)
      stay.push_back(&piece.id);
    else
      out.gone.push_back(piece.id);
  }
  std::size_t left = stay.size();
  for (std::size_t i = now.size(); i-- > 0;) {
    const auto was = then.find(now[i].id);
    if (was == then.end()) {
      out.put.push_back(i);
      continue;
    }
    if (left == 0 || *stay[--left] != now[i].id) return std::nullopt;
    if (!same(*was->second, now[i])) out.put.push_back(i);
  }
  return out;
}

}  // namespace spadework::server
