//! A shift in time: what is commanded, how it goes, its drawing, and its instants on the stage.

use levertrain_core::transient::{
    Command, Cut, Dynamics, Plan, PlanReport, Reading, Refusal, Shift, TransientReport, timings,
};
use levertrain_core::{ElementSet, Problem, Train};
use levertrain_web::boundary::drawings::paint_on;
use levertrain_web::boundary::plain::{plain, problems};
use levertrain_web::boundary::sandbox::Sandbox;
use levertrain_web::draw::scene::Scene;
use levertrain_web::draw::transient::{self, Extents, View};
use levertrain_web::instant::Instant;
use levertrain_web::session::Session;
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

use crate::drawings::{paint_picture, svg_of};

/// A shift of one train, and another that was kept to compare with.
#[wasm_bindgen]
pub struct TimedShift {
    train: Train,
    dynamics: Dynamics,
    /// What is wrong with what the file says of that.
    wrong: Vec<Problem>,
    plan: Plan,
    shift: Result<Shift, Refusal>,
    kept: Option<Shift>,
    /// The shafts whose speeds are drawn.
    shafts: Vec<usize>,
    lit: Option<usize>,
    time: f64,
    reach: f64,
    /// What strips reached when something was taken hold of.
    extents: Option<Extents>,
    /// What was commanded before each change that can be taken back, the last one last.
    steps: Vec<Plan>,
}

/// So many changes can be taken back.
const STEPS: usize = 100;

#[wasm_bindgen]
impl TimedShift {
    /// A shift of the train in a text with commands that suit it, from these elements to those.
    #[wasm_bindgen(constructor)]
    pub fn new(text: &str, from: Vec<String>, to: Vec<String>) -> Result<TimedShift, JsValue> {
        let train = Train::parse(text).map_err(problems)?;
        let set = |ids: Vec<String>| -> Result<ElementSet, JsValue> {
            let ids = ids.iter().map(String::as_str);
            train.element_set(ids).map_err(problems)
        };
        let (from, to) = (set(from)?, set(to)?);
        let (dynamics, wrong) = Dynamics::of(&train);
        let plan = Plan::suited(&train, &dynamics, from, to);
        let shift = Shift::of(&train, &dynamics, plan.clone());
        let shafts = shafts_of(&train, &plan);
        Ok(Self {
            train,
            dynamics,
            wrong,
            plan,
            shift,
            kept: None,
            shafts,
            lit: None,
            time: 0.0,
            reach: 30.0,
            extents: None,
            steps: Vec::new(),
        })
    }

    /// A change begins, which [`TimedShift::undo`] takes back as a whole.
    pub fn mark(&mut self) {
        if self.steps.last() != Some(&self.plan) {
            self.steps.push(self.plan.clone());
        }
        if self.steps.len() > STEPS {
            self.steps.remove(0);
        }
    }

    /// Commands what was commanded before the last change; whether there was one.
    pub fn undo(&mut self) -> Result<bool, JsValue> {
        while let Some(before) = self.steps.pop() {
            if before != self.plan {
                self.take(before)?;
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// Whether a change can be taken back.
    #[wasm_bindgen(js_name = canUndo)]
    pub fn can_undo(&self) -> bool {
        self.steps.iter().any(|before| *before != self.plan)
    }

    /// What is wrong with the field `dynamics` of the file: it is assumed instead.
    #[wasm_bindgen(unchecked_return_type = "ProblemInfo[]")]
    pub fn problems(&self) -> Result<JsValue, JsValue> {
        let problems = self.wrong.iter().cloned();
        let infos = problems.map(levertrain_web::boundary::wire::ProblemInfo::from);
        plain(&infos.collect::<Vec<_>>())
    }

    /// What is commanded.
    #[wasm_bindgen(unchecked_return_type = "TimedPlan")]
    pub fn plan(&self) -> Result<JsValue, JsValue> {
        plain(&PlanReport::of(&self.train, &self.dynamics, &self.plan))
    }

    /// How it goes; nothing where it is refused.
    #[wasm_bindgen(unchecked_return_type = "TimedShiftReport | null")]
    pub fn report(&self) -> Result<JsValue, JsValue> {
        let report = |shift| TransientReport::of(&self.train, shift);
        plain(&self.shift.as_ref().ok().map(report))
    }

    /// The same of what was kept; nothing where nothing was.
    #[wasm_bindgen(js_name = keptReport, unchecked_return_type = "TimedShiftReport | null")]
    pub fn kept_report(&self) -> Result<JsValue, JsValue> {
        let report = |shift| TransientReport::of(&self.train, shift);
        plain(&self.kept.as_ref().map(report))
    }

    /// Why it is refused: `tied-up`, `unsettled` or `undecided`; nothing where it is not.
    pub fn refusal(&self) -> Option<String> {
        let key = |refusal: &Refusal| match refusal {
            Refusal::TiedUp => "tied-up",
            Refusal::Unsettled => "unsettled",
            Refusal::Undecided => "undecided",
        };
        self.shift.as_ref().err().map(key).map(str::to_owned)
    }

    /// Commands an element at another time, with a ramp of another length, in seconds.
    pub fn command(&mut self, element: &str, at: f64, ramp: f64) -> Result<(), JsValue> {
        let mut plan = self.plan.clone();
        let is_meant = |command: &&mut Command| {
            self.train.scenario().elements[command.element].id() == element
        };
        if let Some(command) = plan.commands.iter_mut().find(is_meant) {
            (command.at, command.ramp) = (at, ramp);
        }
        self.take(plan)
    }

    /// Takes back this part of the engine's torque between two times; none at all where the part is 0.
    pub fn cut(&mut self, begin: f64, end: f64, depth: f64) -> Result<(), JsValue> {
        let cut = (depth > 0.0).then_some(Cut { begin, end, depth });
        let plan = Plan {
            cut,
            ..self.plan.clone()
        };
        self.take(plan)
    }

    /// Begins at this speed in rev/min, with these torques in N·m at input and output, and goes on until this time in seconds.
    pub fn begin(
        &mut self,
        input_speed: f64,
        input_torque: f64,
        output_torque: f64,
        until: f64,
    ) -> Result<(), JsValue> {
        let plan = Plan {
            input_speed,
            input_torque,
            output_torque,
            until,
            ..self.plan.clone()
        };
        self.take(plan)
    }

    /// Keeps the scales of the strips, but for what goes beyond them, while something is dragged; or no longer.
    pub fn hold(&mut self, sandbox: &Sandbox, holds: bool) -> Result<(), JsValue> {
        let session = sandbox.session()?;
        self.extents = None;
        self.extents = self
            .view(session)
            .filter(|_| holds)
            .map(|view| transient::extents(&view));
        Ok(())
    }

    /// Keeps it to compare with; or nothing any more.
    pub fn keep(&mut self, keeps: bool) {
        self.kept = self.shift.clone().ok().filter(|_| keeps);
    }

    /// How it is drawn from now on: with the speeds of all shafts or of those that matter most, one of them lit, the time
    /// that is read, and the least height of a row in CSS pixels.
    pub fn show(&mut self, all: bool, lit: Option<String>, time: f64, reach: f64) {
        let shafts = &self.train.scenario().shafts;
        self.lit = lit.and_then(|id| shafts.iter().position(|shaft| shaft.id == id));
        self.shafts = match all {
            true => (0..shafts.len()).collect(),
            false => shafts_of(&self.train, &self.plan),
        };
        if let Some(lit) = self.lit.filter(|lit| !self.shafts.contains(lit)) {
            self.shafts.push(lit);
        }
        self.time = time;
        self.reach = reach;
    }

    /// What can be read at a time; nothing where the shift is refused.
    #[wasm_bindgen(unchecked_return_type = "TimedReading | null")]
    pub fn reading(&self, time: f64) -> Result<JsValue, JsValue> {
        let shift = self.shift.as_ref().ok();
        plain(&shift.and_then(|shift| Reading::of(&self.train, &self.dynamics, shift, time)))
    }

    /// What comes of so many seconds of releasing and applying later: flare in rev/min, tie-up in N·m and heat in J of each,
    /// row by row of one time of applying; no numbers where it is refused.
    pub fn timings(&self, releases: &[f64], applies: &[f64]) -> Vec<f64> {
        let all = timings(&self.train, &self.dynamics, &self.plan, releases, applies);
        let numbers = all
            .into_iter()
            .flat_map(|timing| timing.map_or([f64::NAN; 3], |x| [x.flare, x.bind, x.heat]));
        numbers.collect()
    }

    /// Shows the instant of a time on the stage; whether there is one. Without a time the steady motion is shown again.
    #[wasm_bindgen(js_name = showOnStage)]
    pub fn show_on_stage(&self, sandbox: &mut Sandbox, time: Option<f64>) -> Result<bool, JsValue> {
        let session = sandbox.session_mut()?;
        // Edited meanwhile, it is another train.
        let same = session.train().scenario() == self.train.scenario();
        let shift = self.shift.as_ref().ok().filter(|_| same);
        let instant = shift
            .zip(time)
            .and_then(|(shift, time)| Instant::of_shift(&self.dynamics, shift, time));
        let shows = instant.is_some();
        session.show_instant(instant);
        Ok(shows)
    }

    /// Where everything stands at a width in CSS pixels; nothing where the shift is refused.
    #[wasm_bindgen(unchecked_return_type = "TimedPlaces | null")]
    pub fn places(&self, sandbox: &Sandbox, width: f64) -> Result<JsValue, JsValue> {
        let view = self.view(sandbox.session()?);
        plain(&view.map(|view| transient::places(&view, width)))
    }

    /// Draws it, as wide as the canvas.
    pub fn draw(&self, sandbox: &Sandbox, canvas: HtmlCanvasElement) -> Result<(), JsValue> {
        paint_on(sandbox.session()?, canvas, |session, (width, _)| {
            Ok(self.scene(session, width))
        })
    }

    /// The drawing as the text of an SVG file, in `light` colours or those on screen.
    pub fn svg(&self, sandbox: &Sandbox, width: f64, light: bool) -> Result<String, JsValue> {
        let session = sandbox.session()?;
        svg_of(session, light, &self.scene(session, width))
    }

    /// The same on a canvas whose backing store has the size of the drawing times `scale`.
    #[wasm_bindgen(js_name = drawPicture)]
    pub fn draw_picture(
        &self,
        sandbox: &Sandbox,
        canvas: HtmlCanvasElement,
        scale: f64,
        light: bool,
    ) -> Result<(), JsValue> {
        let session = sandbox.session()?;
        paint_picture(session, canvas, (scale, light), |session, (width, _)| {
            Ok(self.scene(session, width))
        })
    }
}

impl TimedShift {
    /// Reckons another plan, unless something is wrong with it: then all stays.
    fn take(&mut self, plan: Plan) -> Result<(), JsValue> {
        let wrong = plan.problems(&self.train);
        if !wrong.is_empty() {
            return Err(problems(wrong));
        }
        self.shift = Shift::of(&self.train, &self.dynamics, plan.clone());
        self.plan = plan;
        Ok(())
    }

    fn view(&self, session: &Session) -> Option<View<'_>> {
        let settings = session.settings();
        Some(View {
            train: &self.train,
            dynamics: &self.dynamics,
            shift: self.shift.as_ref().ok()?,
            kept: self.kept.as_ref(),
            shafts: &self.shafts,
            lit: self.lit,
            time: self.time,
            units: (settings.speed_unit, settings.torque_unit),
            extents: self.extents,
            reach: self.reach,
        })
    }

    fn scene(&self, session: &Session, width: f64) -> Scene {
        let view = self.view(session);
        view.map_or_else(
            || Scene::new(width, 1.0),
            |view| transient::scene(&view, width),
        )
    }
}

/// The shafts that matter most: input, output, and what the changed elements join.
fn shafts_of(train: &Train, plan: &Plan) -> Vec<usize> {
    let changed = plan
        .commands
        .iter()
        .flat_map(|command| train.ends(command.element));
    let changed = changed.filter_map(|body| match body {
        levertrain_core::Body::Shaft(shaft) => Some(shaft),
        levertrain_core::Body::Housing => None,
    });
    let mut shafts = vec![train.input(), train.output()];
    for shaft in changed {
        if !shafts.contains(&shaft) {
            shafts.push(shaft);
        }
    }
    shafts
}
