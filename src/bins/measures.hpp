// SPDX-License-Identifier: MIT
// What bins have to keep, each a sum of turns times a function of torque and speed: time, turns,
// work, what bearings and oil take, and the damage of a setup's teeth.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

namespace caseload::bins {

/// Damage of turns of the case input to the tooth sides of a setup's gears.
class TurnDamage {
public:
    TurnDamage() = default;
    TurnDamage(const TurnDamage&) = delete;
    TurnDamage& operator=(const TurnDamage&) = delete;
    virtual ~TurnDamage() = default;

    /// One tooth side of one gear by one failure.
    struct Part {
        std::string gear;
        bool root = false;  ///< else flank
        bool fitted = false;
    };
    [[nodiscard]] virtual const std::vector<Part>& parts() const = 0;
    /// The same gear and failure on the other side of its teeth.
    [[nodiscard]] virtual std::size_t other_side(std::size_t part) const = 0;
    /// Adds the damage of so many turns to `to`, one number for each part.
    virtual void add(double turns, double torque_Nm, double speed_rpm, double* to) const = 0;
};

class Measures {
public:
    /// No teeth: powers of torque take their place.
    explicit Measures(std::shared_ptr<const TurnDamage> teeth);

    struct Kept {
        double torque = 0;      ///< exponent of torque; teeth: about, above the endurance limit
        double importance = 1;  ///< of its error where a group is split
        double tolerance = 0;   ///< of the sum over the leg, that the bins' times aim at
        std::size_t scale = 0;  ///< the measure, or its other tooth side where that takes more
        bool of_torque_alone = false;
    };
    [[nodiscard]] const std::vector<Kept>& kept() const { return kept_; }
    [[nodiscard]] std::size_t count() const { return kept_.size(); }
    [[nodiscard]] const TurnDamage* teeth() const { return teeth_.get(); }
    /// The first measure that is a tooth's.
    [[nodiscard]] std::size_t first_tooth() const { return first_tooth_; }

    /// Values of so many turns, one for each measure.
    void values(double turns, double torque_Nm, double speed_rpm, double* to) const;

    /// For who has the logarithms of |torque_Nm| and of the speed, by log_of_size.
    void values(double turns, double torque_Nm, double speed_rpm, double log_torque,
                double log_speed, double* to) const;
    /// Of nothing: so far below that every power of it is nothing.
    [[nodiscard]] static double log_of_size(double size);

private:
    std::shared_ptr<const TurnDamage> teeth_;
    std::vector<Kept> kept_;
    std::size_t first_tooth_ = 0;
};

}  // namespace caseload::bins
