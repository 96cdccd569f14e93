// SPDX-License-Identifier: MIT
// Copyright (c) 2026 the Beforehand developers
#pragma once

#include <cstddef>
#include <functional>

namespace beforehand::study {

/// Who watches long work. Both are called by the thread that asked for the work.
struct Watch {
  std::function<void(std::size_t done, std::size_t of)> progress;
  std::function<bool()> stopped;  ///< true: begin nothing more
};

/// Does one piece of work.
using Work = std::function<void(std::size_t piece)>;

/// Has pieces 0 to `pieces` - 1 done on `threads` threads (0: as many as the machine runs at once).
/// `hire` is called once on each thread for what works there, so that it can keep memory of its
/// own. Pieces are begun in order and whatever is begun is finished: the pieces done are the first
/// so many, which is what comes back. What a piece throws is thrown here.
std::size_t share_out(std::size_t pieces, unsigned threads, const std::function<Work()>& hire,
                      const Watch& watch = {});

}  // namespace beforehand::study
