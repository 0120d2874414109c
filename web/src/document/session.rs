//! What is on screen: the train, the applied elements, and everything that glides or turns.
//!
//! A session knows no browser and no clock; whoever holds it tells it how much time has passed.

use levertrain_core::edit::{Edit, History};
use levertrain_core::{Combination, Duty, ElementSet, Problem, Scenario, Train};

use super::settings::Settings;
use crate::draw::section::{Layout, Stage};
use crate::motion::glide::Glide;
use crate::motion::live::{Live, Motion, motions};
use crate::motion::powers::Powers;
use crate::motion::reach::Reach;

/// Turns per second of the input as animated, at full animation rate: slow enough to follow a
/// pinion by eye.
const ANIMATED_TURNS_PER_SECOND: f64 = 0.25;

/// A train being played with.
pub struct Session {
    train: Train,
    layout: Layout,
    /// How far speeds reach in the named ranges.
    reach: Reach,
    applied: ElementSet,
    speeds: Glide,
    grips: Glide,
    angles: Vec<f64>,
    /// What the applied elements do, as far as the drawings ask in every frame.
    standing: Standing,
    /// The pack being dragged, and the speeds that changing it over would give.
    drag: Option<(usize, Vec<Option<f64>>)>,
    lit: Option<usize>,
    settings: Settings,
    history: History,
}

impl Session {
    /// A train with its layout, its first range applied or everything released.
    pub(super) fn of(train: Train, layout: Layout) -> Self {
        let applied = match train.scenario().ranges.is_empty() {
            true => ElementSet::NONE,
            false => train.range(0),
        };
        let reach = Reach::of_ranges(&train);
        let standing = Standing::of(&train, applied, reach);
        let mut session = Self {
            reach,
            speeds: Glide::at(illustrated(&train, standing.holding)),
            grips: Glide::at(closures(&train, standing.holding, None)),
            standing,
            angles: vec![0.0; train.scenario().shafts.len()],
            train,
            layout,
            applied,
            drag: None,
            lit: None,
            settings: Settings::default(),
            history: History::default(),
        };
        session.settle();
        session
    }

    /// Makes an edit; one that `continues` the last one is the same step of the history.
    ///
    /// # Errors
    /// Why it cannot be; then nothing has changed.
    pub fn edit(&mut self, edit: &Edit, continues: bool) -> Result<(), Vec<Problem>> {
        let before = self.train.scenario();
        let after = edit.of(before).map_err(|problem| vec![problem])?;
        let train = Train::new(after)?;
        self.history.note(edit, before, train.scenario(), continues);
        self.take(train);
        Ok(())
    }

    /// Takes the last edit back; whether there was one.
    pub fn undo(&mut self) -> bool {
        let before = self.history.undo(self.train.scenario());
        self.take_scenario(before)
    }

    /// Makes again the edit that was taken back last; whether there was one.
    pub fn redo(&mut self) -> bool {
        let after = self.history.redo(self.train.scenario());
        self.take_scenario(after)
    }

    /// How many edits can be taken back, and how many made again.
    pub fn depth(&self) -> [usize; 2] {
        self.history.depth()
    }

    /// Goes on with a scenario of the history, which was a train once and is one still.
    fn take_scenario(&mut self, scenario: Option<Scenario>) -> bool {
        let train = scenario.and_then(|scenario| Train::new(scenario).ok());
        train.map(|train| self.take(train)).is_some()
    }

    /// Goes on with another train: what has the same id is applied still, and speeds and packs glide from
    /// where they were.
    fn take(&mut self, train: Train) {
        let ids = |train: &Train, set: ElementSet| -> Vec<String> {
            let elements = &train.scenario().elements;
            set.iter().map(|at| elements[at].id().to_owned()).collect()
        };
        let known = ids(&self.train, self.applied);
        let applied = known.iter().filter_map(|id| train.element(id)).collect();
        let layout = match self.layout.like(&train) {
            Some(layout) => layout,
            None => Layout::of(&train),
        };
        let mut next = Self::of(train, layout);
        next.apply(applied);
        let shafts = [&self.train, &next.train].map(|train| &train.scenario().shafts);
        let speeds = carried(
            shafts.map(|x| x.iter().map(|x| &*x.id).collect()),
            &self.speeds,
        );
        let elements = [&self.train, &next.train].map(|train| &train.scenario().elements);
        let grips = carried(
            elements.map(|x| x.iter().map(|x| x.id()).collect()),
            &self.grips,
        );
        next.speeds.set_off_from(speeds);
        next.grips.set_off_from(grips);
        let angles = shafts[1].iter().map(|shaft| {
            let before = shafts[0].iter().position(|known| known.id == shaft.id);
            before.map_or(0.0, |before| self.angles[before])
        });
        next.angles = angles.collect();
        next.history = std::mem::take(&mut self.history);
        next.set(self.settings.clone());
        *self = next;
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
        self.standing = Standing::of(&self.train, applied, self.reach);
        let holding = self.standing.holding;
        self.speeds.go_to(illustrated(&self.train, holding));
        self.grips.go_to(closures(&self.train, holding, None));
    }

    /// Skips every glide.
    pub fn settle(&mut self) {
        self.speeds.arrive();
        self.grips.arrive();
    }

    /// Shows an element's packs closed by `closure` (0 to 1) without applying or releasing it.
    pub fn drag(&mut self, element: usize, closure: f64) {
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

    /// What is assumed and how it is shown.
    pub fn settings(&self) -> &Settings {
        &self.settings
    }

    /// Assumes and shows as these settings say.
    pub fn set(&mut self, settings: Settings) {
        self.layout.scale(settings.one_module);
        self.settings = settings;
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
        let rate = self.settings.rate;
        let turn = rate * ANIMATED_TURNS_PER_SECOND * std::f64::consts::TAU * seconds;
        for (angle, speed) in self.angles.iter_mut().zip(self.speeds.shown()) {
            *angle += turn * speed;
        }
        speeds_move || grips_move || rate > 0.0
    }

    /// This instant, for the drawings.
    pub fn live(&self) -> Live<'_> {
        Live {
            train: &self.train,
            applied: self.standing.holding,
            motions: self.standing.motions.clone(),
            speeds: self.speeds.shown(),
            angles: self.angles.clone(),
            grips: self.grips.shown(),
            fighting: self.standing.fighting,
            lit: self.lit,
            input_speed: self.settings.speed,
            speed_unit: self.settings.speed_unit,
            preview: self.drag.as_ref().map(|(_, speeds)| speeds.clone()),
            reach: self.standing.reach,
            powers: self.standing.powers.clone().filter(|_| self.settings.power),
        }
    }
}

/// Where each of the values of the second ids was among those of the first, on its way; nothing for what
/// is new.
fn carried([before, after]: [Vec<&str>; 2], glide: &Glide) -> Vec<Option<f64>> {
    let shown = glide.shown();
    let was = |id: &&str| before.iter().position(|known| known == id);
    after.iter().map(|id| was(id).map(|at| shown[at])).collect()
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
