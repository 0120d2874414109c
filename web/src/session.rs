//! What is on screen: the train, the applied elements, and everything that glides or turns.
//!
//! A session knows no browser and no clock; whoever holds it tells it how much time has passed.

use levertrain_core::{Duty, ElementSet, Fault, Train};

use crate::draw::section::Layout;
use crate::glide::Glide;
use crate::live::{Live, motions};

/// Input speed of a fresh session, in rev/min.
pub const DEFAULT_INPUT_SPEED: f64 = 1000.0;

/// Turns per second of the input as animated, at full animation rate: slow enough to follow a
/// pinion by eye.
const ANIMATED_TURNS_PER_SECOND: f64 = 0.25;

/// A train being played with.
pub struct Session {
    train: Train,
    layout: Layout,
    applied: ElementSet,
    speeds: Glide,
    grips: Glide,
    angles: Vec<f64>,
    /// Share of the full animation rate; 0 stands still.
    rate: f64,
    /// How far a pack is dragged: element, and closure from 0 to 1.
    drag: Option<(usize, f64)>,
    lit: Option<usize>,
    input_speed: f64,
}

impl Session {
    /// Opens a scenario with everything released, or with its first range applied.
    ///
    /// # Errors
    /// Every fault of the file.
    pub fn open(text: &str) -> Result<Self, Vec<Fault>> {
        let train = Train::parse(text)?;
        let applied = match train.scenario().ranges.is_empty() {
            true => ElementSet::NONE,
            false => train.range(0),
        };
        let layout = Layout::of(&train);
        let mut session = Self {
            speeds: Glide::at(illustrated(&train, applied)),
            grips: Glide::at(closures(&train, applied, None)),
            angles: vec![0.0; train.scenario().shafts.len()],
            train,
            layout,
            applied,
            rate: 0.0,
            drag: None,
            lit: None,
            input_speed: DEFAULT_INPUT_SPEED,
        };
        session.settle();
        Ok(session)
    }

    /// The train.
    pub fn train(&self) -> &Train {
        &self.train
    }

    /// Where things stand in the half-section drawing.
    pub fn layout(&self) -> &Layout {
        &self.layout
    }

    /// The applied elements.
    pub fn applied(&self) -> ElementSet {
        self.applied
    }

    /// Applies exactly these elements; speeds and plate packs set off for their new places.
    pub fn apply(&mut self, applied: ElementSet) {
        self.applied = applied;
        self.drag = None;
        self.speeds.go_to(illustrated(&self.train, applied));
        self.grips.go_to(closures(&self.train, applied, None));
    }

    /// Skips every glide.
    pub fn settle(&mut self) {
        self.speeds.arrive();
        self.grips.arrive();
    }

    /// Shows an element's packs closed by `closure` (0 to 1) without applying or releasing it.
    pub fn drag(&mut self, element: usize, closure: f64) {
        self.drag = Some((element, closure.clamp(0.0, 1.0)));
        self.grips
            .go_to(closures(&self.train, self.applied, self.drag));
        self.grips.arrive();
    }

    /// Lets go of a dragged pack: it returns to where the applied elements say.
    pub fn end_drag(&mut self) {
        self.drag = None;
        self.grips.go_to(closures(&self.train, self.applied, None));
    }

    /// The applied elements with `element` changed over.
    pub fn toggled(&self, element: usize) -> ElementSet {
        if self.applied.contains(element) {
            self.applied.without(element)
        } else {
            self.applied.with(element)
        }
    }

    /// Points at a shaft, or at none.
    pub fn light(&mut self, shaft: Option<usize>) {
        self.lit = shaft;
    }

    /// Input speed in rev/min.
    pub fn input_speed(&self) -> f64 {
        self.input_speed
    }

    /// Sets the input speed in rev/min; what is not a finite number is ignored.
    pub fn set_input_speed(&mut self, speed: f64) {
        if speed.is_finite() {
            self.input_speed = speed;
        }
    }

    /// Sets how fast the drawings turn, as a share of the full rate; 0 stands still.
    pub fn set_rate(&mut self, rate: f64) {
        self.rate = if rate.is_finite() {
            rate.clamp(0.0, 4.0)
        } else {
            0.0
        };
    }

    /// Lets `seconds` pass; whether the next frame will differ.
    pub fn advance(&mut self, seconds: f64) -> bool {
        // A page that was hidden comes back with one long step; nobody wants to see it.
        let seconds = if seconds.is_finite() {
            seconds.clamp(0.0, 0.1)
        } else {
            0.0
        };
        let speeds_move = self.speeds.advance(seconds);
        let grips_move = self.grips.advance(seconds);
        let turn = self.rate * ANIMATED_TURNS_PER_SECOND * std::f64::consts::TAU * seconds;
        for (angle, speed) in self.angles.iter_mut().zip(self.speeds.shown()) {
            *angle += turn * speed;
        }
        speeds_move || grips_move || self.rate > 0.0
    }

    /// This instant, for the drawings.
    pub fn live(&self) -> Live<'_> {
        let combination = self.train.settle(self.applied, Duty::Drive).combination;
        let shafts = 0..self.train.scenario().shafts.len();
        let preview = self.drag.map(|(element, _)| {
            let tried = self
                .train
                .settle(self.toggled(element), Duty::Drive)
                .combination;
            shafts
                .map(|shaft| tried.shaft_speed(shaft).map(|speed| speed.to_f64()))
                .collect()
        });
        Live {
            train: &self.train,
            applied: combination.applied(),
            motions: motions(&combination),
            speeds: self.speeds.shown(),
            angles: self.angles.clone(),
            grips: self.grips.shown(),
            fighting: combination
                .fight()
                .map_or(ElementSet::NONE, |fight| fight.elements),
            lit: self.lit,
            input_speed: self.input_speed,
            preview,
        }
    }
}

/// The applied elements and the one-way clutches that lock beside them.
fn holding(train: &Train, applied: ElementSet) -> ElementSet {
    train.settle(applied, Duty::Drive).combination.applied()
}

fn illustrated(train: &Train, applied: ElementSet) -> Vec<f64> {
    train
        .illustrate(holding(train, applied))
        .iter()
        .map(levertrain_core::Fraction::to_f64)
        .collect()
}

/// How far each element is closed: as applied, but for the one being dragged.
fn closures(train: &Train, applied: ElementSet, drag: Option<(usize, f64)>) -> Vec<f64> {
    let applied = holding(train, applied);
    (0..train.scenario().elements.len())
        .map(|element| match drag {
            Some((dragged, closure)) if dragged == element => closure,
            _ => f64::from(u8::from(applied.contains(element))),
        })
        .collect()
}
