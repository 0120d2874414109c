//! The friction surfaces of a plate clutch or brake, as a scenario states them.

use serde::Serialize;

use super::limits;
use crate::base::problem::Problem;
use crate::json::read_fields;

/// Ring-shaped friction surfaces pressed together by one force. Lengths are radii in mm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct Friction {
    /// How many pairs of faces rub: twice the discs that are lined on both sides, or n1 + n2 − 1
    /// for n1 driving and n2 driven plates stacked in turns.
    pub surfaces: u32,
    /// Outer radius of the lining in mm.
    pub outer_radius: f64,
    /// Inner radius of the lining in mm.
    pub inner_radius: f64,
    /// Coefficient of friction.
    pub coefficient: f64,
    /// Force in N that presses the stack together, springs and losses already taken off.
    pub clamp_force: f64,
}

read_fields!(Friction {
    surfaces,
    outer_radius,
    inner_radius,
    coefficient,
    clamp_force
});

impl Friction {
    /// What is wrong with the numbers of the data at `place`.
    pub(crate) fn problems(&self, place: &str) -> Vec<Problem> {
        let fields = [
            ("surfaces", f64::from(self.surfaces), limits::SURFACES),
            ("outer_radius", self.outer_radius, limits::LINING_RADIUS_MM),
            ("inner_radius", self.inner_radius, limits::LINING_RADIUS_MM),
            ("coefficient", self.coefficient, limits::FRICTION),
            ("clamp_force", self.clamp_force, limits::CLAMP_FORCE_N),
        ];
        let mut problems: Vec<Problem> = fields
            .into_iter()
            .filter(|(_, value, (least, most))| !(least..=most).contains(&value))
            .map(|(field, value, (least, most))| {
                let place = format!("{place}.{field}");
                Problem::out_of_range(&place, "problem-outside", value, least, most)
            })
            .collect();
        if self.inner_radius >= self.outer_radius {
            problems.push(Problem::of(
                &format!("{place}.inner_radius"),
                (
                    "problem-not-below-outer",
                    &[("found", &self.inner_radius.to_string())],
                ),
                ("fix-less", &[("most", &self.outer_radius.to_string())]),
            ));
        }
        problems
    }
}
