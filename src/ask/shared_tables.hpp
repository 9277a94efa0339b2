// SPDX-License-Identifier: MIT
// Tables of the fast case that many cases have in common.
#pragma once

#include "ask/fast_cooler.hpp"
#include "ask/fast_lives.hpp"
#include "ask/fast_outside.hpp"

#include <algorithm>
#include <cstddef>
#include <memory>
#include <mutex>
#include <utility>
#include <vector>

namespace caseload {

/// The tables used last, returned again where they would be calculated from the same inputs.
/// Threads may share it.
class SharedTables {
public:
    std::shared_ptr<LoadedTables> of(LoadedTables::Inputs inputs) {
        return loaded_.of(std::move(inputs));
    }
    std::shared_ptr<LifeTables> of(LifeTables::Inputs inputs) {
        return lives_.of(std::move(inputs));
    }
    std::shared_ptr<OutsideTables> of(OutsideTables::Inputs inputs) {
        return outside_.of(std::move(inputs));
    }
    std::shared_ptr<CoolerTables> of(CoolerTables::Inputs inputs) {
        return cooler_.of(std::move(inputs));
    }

private:
    /// Of one kind, the one used last at the end.
    template <class Tables>
    class Last {
    public:
        std::shared_ptr<Tables> of(typename Tables::Inputs inputs) {
            const std::lock_guard<std::mutex> lock(mutex_);
            const auto found = std::find_if(kept_.begin(), kept_.end(), [&](const auto& one) {
                return one->inputs() == inputs;
            });
            if (found != kept_.end()) {
                std::rotate(found, found + 1, kept_.end());
                return kept_.back();
            }
            kept_.push_back(std::make_shared<Tables>(std::move(inputs)));
            std::size_t legs = 0;
            for (const auto& one : kept_) legs += one->legs();
            while (kept_.size() > 1 && (legs > most_legs || kept_.size() > most_kept)) {
                legs -= kept_.front()->legs();
                kept_.erase(kept_.begin());
            }
            return kept_.back();
        }

    private:
        // Bounds of what is kept in memory, some 0.3 MB a leg: enough for the values of an axis or
        // two of a grid. Judgement.
        static constexpr std::size_t most_kept = 8;
        static constexpr std::size_t most_legs = 64;
        std::mutex mutex_;
        std::vector<std::shared_ptr<Tables>> kept_;
    };

    Last<LoadedTables> loaded_;
    Last<LifeTables> lives_;
    Last<OutsideTables> outside_;
    Last<CoolerTables> cooler_;
};

}  // namespace caseload
