//! The TypeScript declarations of what crosses the boundary, made from the types themselves.

use std::any::TypeId;

use levertrain_core::edit::Edit;
use levertrain_core::exercise::{Kind, MarkReport, SheetReport};
use levertrain_core::faults::{BecomesReport, ExplanationsReport, FaultsReport};
use levertrain_core::layouts::{LayoutAsk, LayoutsReport};
use levertrain_core::lesson::{ShiftReport, WalkReport};
use levertrain_core::report::{
    CapacityReport, ChartReport, CombinationReport, LossReport, OperatingReport, WorkingReport,
};
use levertrain_core::search::{Ask, SearchReport};
use levertrain_core::sources::{RegionReport, SharesReport, StandReport};
use levertrain_core::swaps::{ChainsReport, ShiftsReport};
use levertrain_core::traction::{LackReport, ReadingReport, TractionReport};
use levertrain_core::transient::{PlanReport, Reading, TransientReport};
use levertrain_core::{Fraction, State};
use ts_rs::{Config, TS, TypeVisitor};

use super::wire::{Answer, NearRatios, ProblemInfo, Sheet, TextProblem, TrainInfo};
use crate::document::far::FarSize;
use crate::document::settings::Settings;
use crate::draw::section::{Grips, Handle, StageSize};
use crate::draw::swaps::Places;
use crate::draw::traction::Places as RoadPlaces;
use crate::draw::transient;
use crate::motion::live::Motion;

/// The declarations, as `types.d.ts` must hold them.
pub fn declarations() -> String {
    let motions = [
        Motion::Held,
        Motion::Forward,
        Motion::Backward,
        Motion::Free,
        Motion::Fighting,
    ];
    let states = [
        State::Driving(Fraction::ONE),
        State::OverApplied(Fraction::ONE),
        State::Neutral,
        State::OutputHeld,
        State::TiedUp,
    ];
    let mut written = Written {
        config: Config::new(),
        seen: Vec::new(),
        text: "// Made from the Rust types: see `web/src/boundary/declarations.rs`.\n".to_owned(),
        types: Vec::new(),
    };
    written.words("ElementKind", &["brake", "clutch", "one-way"]);
    written.words("MotionWord", &motions.map(Motion::key));
    written.words("OneWays", &["settled", "ambiguous", "contradictory"]);
    written.words("StateKey", &states.each_ref().map(State::key));
    let kinds: Vec<&str> = Kind::ALL.iter().map(|(name, _)| *name).collect();
    written.words("TaskKind", &kinds);
    written.visit::<TrainInfo<'static>>();
    written.visit::<Answer>();
    written.visit::<CombinationReport>();
    written.visit::<ChartReport>();
    written.visit::<LossReport>();
    written.visit::<CapacityReport>();
    written.visit::<OperatingReport>();
    written.visit::<WorkingReport>();
    written.visit::<WalkReport>();
    written.visit::<ShiftReport>();
    written.visit::<FaultsReport>();
    written.visit::<BecomesReport>();
    written.visit::<ExplanationsReport>();
    written.visit::<Ask>();
    written.visit::<SearchReport>();
    written.visit::<LayoutAsk>();
    written.visit::<LayoutsReport>();
    written.visit::<TractionReport>();
    written.visit::<LackReport>();
    written.visit::<ReadingReport>();
    written.visit::<RoadPlaces>();
    written.visit::<ShiftsReport>();
    written.visit::<ChainsReport>();
    written.visit::<StandReport>();
    written.visit::<RegionReport>();
    written.visit::<SharesReport>();
    written.visit::<Places>();
    written.visit::<PlanReport>();
    written.visit::<TransientReport>();
    written.visit::<Reading>();
    written.visit::<transient::Places>();
    written.visit::<Handle>();
    written.visit::<StageSize>();
    written.visit::<FarSize>();
    written.visit::<Grips>();
    written.visit::<ProblemInfo>();
    written.visit::<Settings>();
    written.visit::<Sheet>();
    written.visit::<NearRatios>();
    written.visit::<TextProblem>();
    written.visit::<Edit>();
    written.visit::<SheetReport>();
    written.visit::<MarkReport>();
    // A type names its parts in another order in every build.
    written.types.sort_unstable();
    let texts = written.types.into_iter().map(|(_, text)| text);
    written.text + &texts.collect::<String>()
}

struct Written {
    config: Config,
    seen: Vec<TypeId>,
    text: String,
    /// Each declaration with its documentation before it.
    types: Vec<(String, String)>,
}

impl Written {
    /// Declares a type of a few words.
    fn words(&mut self, name: &str, words: &[&str]) {
        let words = words.join("\" | \"");
        self.text += &format!("\nexport type {name} = \"{words}\";\n");
    }
}

impl TypeVisitor for Written {
    /// Declares a type and those it is made of, each once.
    fn visit<T: TS + 'static + ?Sized>(&mut self) {
        if self.seen.contains(&TypeId::of::<T>()) {
            return;
        }
        self.seen.push(TypeId::of::<T>());
        T::visit_dependencies(self);
        // Numbers and texts are no declarations of ours.
        if T::output_path().is_none() {
            return;
        }
        let docs = T::docs().unwrap_or_default();
        let declared = T::decl(&self.config);
        let text = format!("\n{docs}export {declared}\n");
        self.types.push((declared, text));
    }
}
