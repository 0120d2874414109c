//! The one speed axis of all levers.

use levertrain_core::words;

use crate::draw::text;
use crate::draw::ticks::{plain, tidy};
use crate::motion::live::Live;
use crate::units::speed_unit::SpeedUnit;

/// Size of the lettering on the axis, in CSS pixels.
pub(super) const TICK_SIZE: f64 = 12.0;

/// Least distance of two lines of the grid, in CSS pixels.
const LEAST_SPACING: f64 = 28.0;

/// Heights of speeds, and what to call them.
#[derive(Debug, Clone)]
pub(super) struct Axis {
    /// Slowest and fastest speed, per input turn.
    low: f64,
    high: f64,
    /// Heights of the fastest and the slowest speed, in CSS pixels.
    top: f64,
    bottom: f64,
    /// What a speed of one input turn is called: its number of units, or 1 with the input at rest.
    unit: f64,
    /// The unit speeds are called in; with the input at rest there is none.
    rate: Option<SpeedUnit>,
}

/// A line of the grid.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Tick {
    /// Height in CSS pixels.
    pub y: f64,
    /// What it is called.
    pub text: String,
}

impl Axis {
    /// The axis between the heights `top` and `bottom`.
    ///
    /// It spans what the named ranges, standstill and the input need, so that levers move
    /// against a fixed axis; only a combination beyond all of those stretches it, for as long
    /// as it is shown or previewed.
    pub(super) fn of(live: &Live<'_>, top: f64, bottom: f64) -> Self {
        let mut reach = live.reach;
        live.speeds.iter().for_each(|&speed| reach.take(speed));
        let previewed = live.preview.iter().flatten().flatten();
        previewed.for_each(|&speed| reach.take(speed));
        let rate = (live.input_speed != 0.0).then_some(live.speed_unit);
        Self {
            low: reach.low,
            high: reach.high,
            top,
            bottom,
            unit: rate.map_or(1.0, |unit| unit.of(live.input_speed)),
            rate,
        }
    }

    /// Height of a speed per input turn; never beyond the ends of the axis.
    pub(super) fn y(&self, speed: f64) -> f64 {
        let along = (speed - self.low) / (self.high - self.low);
        let y = self.bottom - along * (self.bottom - self.top);
        // A speed that is no number gets the height of standstill rather than none.
        if y.is_finite() {
            y.clamp(self.top, self.bottom)
        } else {
            self.bottom + self.low / (self.high - self.low) * (self.bottom - self.top)
        }
    }

    /// How much faster a CSS pixel further up is, per input turn.
    pub(super) fn per_pixel(&self) -> f64 {
        (self.high - self.low) / (self.bottom - self.top)
    }

    /// A speed per input turn in the axis's unit, to three figures.
    pub(super) fn value(&self, speed: f64) -> String {
        let value = speed * self.unit;
        // A nought before the point is no figure.
        let digits = if value.abs() < 1.0 { 4 } else { 3 };
        let text = words::number(value, digits);
        // Standstill needs no figures after the point.
        if text.bytes().all(|byte| b"0.".contains(&byte)) {
            "0".to_owned()
        } else {
            text
        }
    }

    /// What the input's own speed is called.
    pub(super) fn input_words(&self) -> String {
        match self.rate {
            Some(unit) => {
                let speed = words::number(self.unit, 4);
                let values = [("speed", &*speed), ("unit", unit.symbol())];
                words::said("lever-input-speed", &values)
            }
            None => words::word("lever-input-turn").to_owned(),
        }
    }

    /// What the numbers on the axis are, with the lines of its grid; `room` is how wide their
    /// lettering may be in CSS pixels.
    pub(super) fn ticks(&self, room: f64) -> (&'static str, Vec<Tick>) {
        let ends = [self.low * self.unit, self.high * self.unit];
        let (from, to) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
        let step = tidy((to - from) * LEAST_SPACING / (self.bottom - self.top));
        let values = |shown_in: f64| -> Vec<Tick> {
            let (first, last) = ((from / step).ceil() as i64, (to / step).floor() as i64);
            (first..=last)
                .map(|count| {
                    let value = count as f64 * step;
                    Tick {
                        y: self.y(value / self.unit),
                        text: plain(value / shown_in, step / shown_in),
                    }
                })
                .collect()
        };
        let Some(unit) = self.rate else {
            return (
                words::Catalogue::spoken().plain("per-input-turn"),
                values(1.0),
            );
        };
        let ticks = values(1.0);
        let fits = |tick: &Tick| text::width(&tick.text, TICK_SIZE, false) <= room;
        if ticks.iter().all(fits) {
            (unit.symbol(), ticks)
        } else {
            (unit.thousand(), values(1000.0))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn axis(low: f64, high: f64, unit: f64) -> Axis {
        Axis {
            low,
            high,
            top: 40.0,
            bottom: 240.0,
            unit,
            rate: (unit != 1.0).then_some(SpeedUnit::RevPerMin),
        }
    }

    #[track_caller]
    fn check_ticks(axis: &Axis, room: f64, title: &str, texts: &[&str]) {
        let (shown_title, ticks) = axis.ticks(room);
        let shown: Vec<&str> = ticks.iter().map(|tick| tick.text.as_str()).collect();
        assert_eq!((shown_title, shown.as_slice()), (title, texts));
    }

    #[test]
    fn ticks_are_round_numbers_far_enough_apart() {
        check_ticks(
            &axis(-0.6, 1.6, 1000.0),
            40.0,
            "rev/min",
            &["\u{2212}500", "0", "500", "1000", "1500"],
        );
        check_ticks(
            &axis(0.0, 1.0, 1.0),
            40.0,
            "per input turn",
            &["0", "0.2", "0.4", "0.6", "0.8", "1.0"],
        );
        check_ticks(
            &axis(-1.0, 2.0, 12000.0),
            30.0,
            "× 1000 rev/min",
            &["\u{2212}10", "0", "10", "20"],
        );
        let (_, ticks) = axis(-2.3, 4.1, 1370.0).ticks(40.0);
        assert!(ticks.len() > 2);
        assert!(
            ticks
                .windows(2)
                .all(|pair| pair[0].y - pair[1].y >= LEAST_SPACING)
        );
    }

    #[test]
    fn an_input_that_turns_backwards_turns_the_numbers_over_not_the_picture() {
        let axis = axis(-0.5, 1.0, -1000.0);
        assert!(axis.y(1.0) < axis.y(0.0));
        assert_eq!(axis.value(1.0), "\u{2212}1000");
        check_ticks(
            &axis,
            40.0,
            "rev/min",
            &["\u{2212}1000", "\u{2212}500", "0", "500"],
        );
    }

    #[test]
    fn heights_stay_on_the_axis() {
        let axis = axis(-0.5, 1.0, 1000.0);
        assert_eq!(axis.y(9.0), 40.0);
        assert_eq!(axis.y(-9.0), 240.0);
        assert_eq!(axis.y(f64::NAN), axis.y(0.0));
    }

    #[test]
    fn values_have_three_figures_and_standstill_none() {
        let axis = axis(-1.0, 1.0, 1000.0);
        assert_eq!(axis.value(0.41666), "417");
        assert_eq!(axis.value(-0.25), "\u{2212}250");
        assert_eq!(axis.value(0.0), "0");
        assert_eq!(axis.value(-1e-9), "0");
        assert_eq!(axis.value(0.000_694_4), "0.694");
    }
}
