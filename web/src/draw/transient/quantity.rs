//! What a line shows.

use levertrain_core::transient::{Mode, Piece, Shift};

use super::View;

/// rev/min to a rad/s.
const REV_PER_MIN: f64 = 30.0 / std::f64::consts::PI;
/// W in a kW, which powers are lettered in.
const KILOWATT: f64 = 1000.0;

/// A quantity that goes with time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Quantity {
    /// Speed of a shaft.
    Speed(usize),
    /// Torque of an element, positive as it carries in its range.
    Torque(usize),
    /// What an element could carry.
    Capacity(usize),
    /// Torque that the train puts on what its output drives.
    Output,
    /// Power that an element makes heat.
    Power(usize),
}

impl Quantity {
    /// Its value in the unit that it is lettered in.
    pub(super) fn value(self, view: &View<'_>, shift: &Shift, piece: &Piece, later: f64) -> f64 {
        let (speed, torque) = view.units;
        match self {
            Self::Speed(shaft) => speed.of(piece.shaft_speed(shaft, later) * REV_PER_MIN),
            Self::Torque(element) => {
                torque.of(piece.torques[element].after(later) * sign(shift, element))
            }
            Self::Capacity(element) => torque.of(piece.capacities[element].after(later)),
            Self::Output => {
                let line = piece.output_torque(view.train, view.dynamics, &shift.plan);
                torque.of(line.after(later))
            }
            Self::Power(element) => piece.slip_power(element, later) / KILOWATT,
        }
    }

    /// Its course as pairs of time and value, no two of a piece farther from each other than `apart`.
    pub(super) fn course(self, view: &View<'_>, shift: &Shift, apart: f64) -> Vec<[f64; 2]> {
        let mut course = Vec::new();
        for piece in &shift.pieces {
            let straight = matches!(self, Self::Torque(_) | Self::Capacity(_) | Self::Output);
            let parts = match straight {
                true => 1,
                false => ((piece.length / apart).ceil() as usize).clamp(1, 500),
            };
            for part in 0..=parts {
                let later = piece.length * part as f64 / parts as f64;
                let point = [piece.begin + later, self.value(view, shift, piece, later)];
                if course.last() != Some(&point) {
                    course.push(point);
                }
            }
        }
        course
    }
}

/// 1 or -1: which way an element carries torque in the range that it is applied in, the one after counting first.
pub(super) fn sign(shift: &Shift, element: usize) -> f64 {
    let ends = [
        shift
            .pieces
            .last()
            .filter(|_| shift.plan.to.contains(element)),
        shift.pieces.first(),
    ];
    let torques = ends
        .into_iter()
        .flatten()
        .map(|piece| piece.torques[element].at);
    let torque = torques.fold(0.0, |kept, torque| if kept == 0.0 { torque } else { kept });
    if torque < 0.0 { -1.0 } else { 1.0 }
}

/// The elements whose torque is drawn: those that are commanded or ever carry.
pub(super) fn carrying(shift: &Shift) -> Vec<usize> {
    let commanded = |element| shift.plan.commands.iter().any(|x| x.element == element);
    let carries = |element: usize| {
        let mut pieces = shift.pieces.iter();
        pieces.any(|piece| piece.torques[element].at != 0.0 || piece.torques[element].slope != 0.0)
    };
    let count = shift.pieces.first().map_or(0, |piece| piece.torques.len());
    (0..count).filter(|&x| commanded(x) || carries(x)).collect()
}

/// The elements that ever slip under torque.
pub(super) fn slipping(shift: &Shift) -> Vec<usize> {
    let slips = |element: usize| {
        let mut pieces = shift.pieces.iter();
        pieces.any(|piece| {
            matches!(
                piece.modes[element],
                Mode::SlipsForward | Mode::SlipsBackward
            )
        })
    };
    let count = shift.pieces.first().map_or(0, |piece| piece.modes.len());
    (0..count).filter(|&x| slips(x)).collect()
}
