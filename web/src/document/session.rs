//! What is on screen: the train, the applied elements, and everything that glides or turns.
//!
//! A session knows no browser and no clock; whoever holds it tells it how much time has passed.

use levertrain_core::edit::History;
use levertrain_core::{Combination, Duty, ElementSet, Train};

use super::settings::Settings;
use crate::draw::section::{Known, Layout, Mending, Moved, Stage};
use crate::motion::glide::Glide;
use crate::motion::instant::Instant;
use crate::motion::live::{Live, Motion, motions};
use crate::motion::powers::Powers;
use crate::motion::reach::Reach;

/// Turns per second of the input as animated, at full animation rate: slow enough to follow a
/// pinion by eye.
const ANIMATED_TURNS_PER_SECOND: f64 = 0.25;

/// A train being played with.
pub struct Session {
    pub(super) train: Train,
    pub(super) layout: Layout,
    /// How far speeds reach in the named ranges.
    reach: Reach,
    pub(super) applied: ElementSet,
    pub(super) speeds: Glide,
    pub(super) grips: Glide,
    /// The way of things from where they stood before an edit.
    pub(super) moved: Option<Moved>,
    pub(super) angles: Vec<f64>,
    /// What the applied elements do, as far as the drawings ask in every frame.
    standing: Standing,
    /// The pack being dragged, and the speeds that changing it over would give.
    drag: Option<(usize, Vec<Option<f64>>)>,
    lit: Option<usize>,
    told: u64,
    /// What is shown in place of the steady motion.
    instant: Option<Instant>,
    pub(super) settings: Settings,
    pub(super) history: History,
    pub(super) drawn: Known,
    pub(super) mending: Option<Mending>,
    /// Ids of elements that were applied when they were taken away: brought back they are again.
    pub(super) lost: Vec<String>,
}

impl Session {
    /// A train with its layout, its first range applied or everything released.
    pub(super) fn of(train: Train, layout: Layout) -> Self {
        let applied = match train.scenario().ranges.is_empty() {
            true => ElementSet::NONE,
            false => train.range(0),
        };
        Self::with(train, layout, applied)
    }

    /// A train with its layout and these elements applied.
    pub(super) fn with(train: Train, layout: Layout, applied: ElementSet) -> Self {
        let reach = Reach::of_ranges(&train);
        let standing = Standing::of(&train, applied, reach);
        let mut session = Self {
            reach,
            speeds: Glide::at(illustrated(&train, standing.holding)),
            grips: Glide::at(closures(&train, standing.holding, None)),
            moved: None,
            standing,
            angles: vec![0.0; train.scenario().shafts.len()],
            train,
            layout,
            applied,
            drag: None,
            lit: None,
            told: 0,
            instant: None,
            settings: Settings::default(),
            history: History::default(),
            drawn: Known::default(),
            mending: None,
            lost: Vec::new(),
        };
        session.settle();
        session
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
        self.lost.clear();
        self.drag = None;
        self.instant = None;
        self.standing = Standing::of(&self.train, applied, self.reach);
        let holding = self.standing.holding;
        self.speeds.go_to(illustrated(&self.train, holding));
        self.grips.go_to(closures(&self.train, holding, None));
    }

    /// How far speeds reach in the named ranges and in what is applied.
    pub fn reach(&self) -> Reach {
        self.standing.reach
    }

    /// Shows an instant in place of the steady motion, or that again.
    pub fn show_instant(&mut self, instant: Option<Instant>) {
        self.instant = instant;
    }

    /// Skips every glide.
    pub fn settle(&mut self) {
        self.speeds.arrive();
        self.grips.arrive();
        self.moved = None;
    }

    /// Shows an element's packs closed by `closure` (0 to 1) without applying or releasing it.
    pub fn drag(&mut self, element: usize, closure: f64) {
        self.instant = None;
        if self
            .drag
            .as_ref()
            .is_none_or(|(dragged, _)| *dragged != element)
        {
            self.drag = Some((element, self.speeds_with(self.toggled(element))));
        }
        let dragged = Some((element, closure.clamp(0.0, 1.0)));
        let holding = self.standing.holding;
        self.grips.go_to(closures(&self.train, holding, dragged));
        self.grips.arrive();
    }

    /// Speed of each shaft with other elements applied; `None` where it floats.
    fn speeds_with(&self, applied: ElementSet) -> Vec<Option<f64>> {
        let combination = self.train.settle(applied, Duty::Drive).combination;
        (0..self.train.scenario().shafts.len())
            .map(|shaft| combination.shaft_speed(shaft).map(|speed| speed.to_f64()))
            .collect()
    }

    /// Lets go of a dragged pack: it returns to where the applied elements say.
    pub fn end_drag(&mut self) {
        self.drag = None;
        let holding = self.standing.holding;
        self.grips.go_to(closures(&self.train, holding, None));
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

    /// Lights the shafts that something is told of, or none, beside the one pointed at.
    pub fn tell(&mut self, shafts: impl Iterator<Item = usize>) {
        self.told = shafts.fold(0, |told, shaft| told | 1 << shaft);
    }

    /// What is assumed and how it is shown.
    pub fn settings(&self) -> &Settings {
        &self.settings
    }

    /// Assumes and shows as these settings say.
    pub fn set(&mut self, settings: Settings) {
        self.layout.scale(settings.one_module);
        if settings.width != self.settings.width {
            self.moved = None;
        }
        self.settings = settings;
    }

    /// The way of things from where they stood before an edit, while they glide.
    pub fn moved(&self) -> Option<&Moved> {
        self.moved.as_ref()
    }

    /// The stage in the width there is.
    pub fn stage(&self) -> Stage<'_> {
        self.layout.stage(self.settings.width)
    }

    /// What the applied elements do, one-way clutches settled for drive.
    pub fn combination(&self) -> Combination<'_> {
        self.train.settle(self.applied, Duty::Drive).combination
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
        self.moved.take_if(|moved| !moved.advance(seconds));
        let rate = self.settings.rate;
        let turn = rate * ANIMATED_TURNS_PER_SECOND * std::f64::consts::TAU * seconds;
        let speeds = match &self.instant {
            Some(instant) => instant.speeds.clone(),
            None => self.speeds.shown(),
        };
        for (angle, speed) in self.angles.iter_mut().zip(speeds) {
            *angle += turn * speed;
        }
        speeds_move || grips_move || self.moved.is_some() || rate > 0.0
    }

    /// This instant, for the drawings.
    pub fn live(&self) -> Live<'_> {
        let mut live = Live {
            train: &self.train,
            applied: self.standing.holding,
            motions: self.standing.motions.clone(),
            speeds: self.speeds.shown(),
            angles: self.angles.clone(),
            grips: self.grips.shown(),
            fighting: self.standing.fighting,
            lit: self.lit,
            told: self.told,
            input_speed: self.settings.speed,
            speed_unit: self.settings.speed_unit,
            preview: self.drag.as_ref().map(|(_, speeds)| speeds.clone()),
            reach: self.standing.reach,
            powers: self.standing.powers.clone().filter(|_| self.settings.power),
            by_hand: false,
        };
        if let Some(instant) = &self.instant {
            instant.put_on(&mut live);
        }
        live
    }
}

/// What the drawings ask of a combination in every frame, worked out once.
struct Standing {
    /// The applied elements and the one-way clutches that lock beside them.
    holding: ElementSet,
    motions: Vec<Motion>,
    fighting: ElementSet,
    /// How far speeds reach, those of the ranges included.
    reach: Reach,
    powers: Option<Powers>,
}

impl Standing {
    fn of(train: &Train, applied: ElementSet, mut reach: Reach) -> Self {
        let combination = train.settle(applied, Duty::Drive).combination;
        reach.take_all(train, combination.applied());
        Self {
            reach,
            holding: combination.applied(),
            motions: motions(&combination),
            fighting: combination
                .fight()
                .map_or(ElementSet::NONE, |fight| fight.elements),
            powers: Powers::of(&combination).ok(),
        }
    }
}

fn illustrated(train: &Train, applied: ElementSet) -> Vec<f64> {
    train
        .illustrate(applied)
        .iter()
        .map(levertrain_core::Fraction::to_f64)
        .collect()
}

/// How far each element is closed: as applied, but for the one being dragged.
fn closures(train: &Train, applied: ElementSet, drag: Option<(usize, f64)>) -> Vec<f64> {
    (0..train.scenario().elements.len())
        .map(|element| match drag {
            Some((dragged, closure)) if dragged == element => closure,
            _ => f64::from(u8::from(applied.contains(element))),
        })
        .collect()
}
