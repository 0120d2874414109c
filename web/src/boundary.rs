//! The wasm boundary: JavaScript values in, plain data out. Thin on purpose.
//!
//! Errors are thrown as `{ faults: [{ place, problem, fix }] }`; what was on screen stays.

mod pictures;
mod plain;

use levertrain_core::operating::Conditions;
use levertrain_core::report::{
    CapacityReport, ChartReport, CombinationReport, LossReport, OperatingReport,
};
use levertrain_core::{Duty, ElementSet, LossModel, Train};
use plotters_canvas::CanvasBackend;
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

use crate::draw::scene::Point;
use crate::draw::{Device, Palette, flow, lever, paint};
use crate::session::Session;
use crate::speed_unit::SpeedUnit;
use crate::torque_unit::TorqueUnit;
use crate::wire::{Answer, Outcome, TrainInfo};
use plain::{faults, no_such, nothing_open, plain};

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("boundary.d.ts");

/// The sandbox: one train on screen, and the pictures of it.
#[wasm_bindgen]
pub struct Sandbox {
    session: Option<Session>,
    palette: Palette,
    scale: f64,
    stage_width: f64,
    merged: bool,
}

#[wasm_bindgen]
impl Sandbox {
    /// A sandbox with nothing on screen.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Self {
        Self {
            session: None,
            palette: Palette::Light,
            scale: 2.0,
            stage_width: 800.0,
            merged: false,
        }
    }

    /// Opens a scenario file. On a fault the previous one stays.
    #[wasm_bindgen(unchecked_return_type = "TrainInfo")]
    pub fn open(&mut self, text: &str) -> Result<JsValue, JsValue> {
        let session = Session::open(text).map_err(faults)?;
        let info = plain(&TrainInfo::of(session.train()))?;
        self.session = Some(session);
        Ok(info)
    }

    /// Applies exactly the elements with these ids.
    #[wasm_bindgen(unchecked_return_type = "Answer")]
    pub fn apply(&mut self, ids: Vec<String>) -> Result<JsValue, JsValue> {
        let session = self.session_mut()?;
        let applied = session.train().element_set(ids.iter().map(String::as_str));
        session.apply(applied.map_err(faults)?);
        answer(session, session.applied())
    }

    /// What the applied elements do.
    #[wasm_bindgen(unchecked_return_type = "Answer")]
    pub fn answer(&self) -> Result<JsValue, JsValue> {
        let session = self.session()?;
        answer(session, session.applied())
    }

    /// What changing one element over would do.
    #[wasm_bindgen(unchecked_return_type = "Answer")]
    pub fn preview(&self, id: &str) -> Result<JsValue, JsValue> {
        let session = self.session()?;
        answer(session, session.toggled(element(session, id)?))
    }

    /// The range chart.
    #[wasm_bindgen(unchecked_return_type = "Chart")]
    pub fn chart(&self) -> Result<JsValue, JsValue> {
        plain(&ChartReport::from(&self.session()?.train().range_chart()))
    }

    /// What the applied elements do with losses: mesh efficiency (above 0, at most 1), drag of
    /// open elements (torque per unit of slip, in units of the input's), and whether the load
    /// drives the input.
    #[wasm_bindgen(unchecked_return_type = "Losses")]
    pub fn losses(&self, mesh: f64, drag: f64, coasting: bool) -> Result<JsValue, JsValue> {
        let session = self.session()?;
        let model = loss_model(mesh, drag, coasting)?;
        plain(&losses_of(session.train(), session.applied(), &model))
    }

    /// The same for every named range, in order.
    #[wasm_bindgen(js_name = lossChart, unchecked_return_type = "Losses[]")]
    pub fn loss_chart(&self, mesh: f64, drag: f64, coasting: bool) -> Result<JsValue, JsValue> {
        let train = self.session()?.train();
        let model = loss_model(mesh, drag, coasting)?;
        let ranges = 0..train.scenario().ranges.len();
        let reports = ranges.map(|range| losses_of(train, train.range(range), &model));
        plain(&reports.collect::<Vec<_>>())
    }

    /// How the applied elements of every named range hold at an input torque in N·m, in order;
    /// nothing where the scenario has no friction data.
    #[wasm_bindgen(js_name = capacityChart, unchecked_return_type = "Capacity[]")]
    pub fn capacity_chart(&self, torque: f64) -> Result<JsValue, JsValue> {
        let chart = self.session()?.train().range_chart();
        let reports = chart.ranges.iter();
        let reports = reports.filter_map(|entry| CapacityReport::of(&entry.combination, torque));
        plain(&reports.collect::<Vec<_>>())
    }

    /// Sets what driver and road ask for: pedal 0 to 1, grade as rise over run, lock-up clutch
    /// applied or not, mesh efficiency.
    #[wasm_bindgen(js_name = setConditions)]
    pub fn set_conditions(
        &mut self,
        pedal: f64,
        grade: f64,
        lockup: bool,
        mesh: f64,
    ) -> Result<(), JsValue> {
        let conditions = Conditions {
            pedal,
            grade,
            lockup,
            mesh_efficiency: mesh,
        };
        let set = self.session_mut()?.set_conditions(conditions);
        set.map_err(|fault| faults(vec![fault]))
    }

    /// The operating point of the applied elements; null where the scenario has no engine.
    #[wasm_bindgen(unchecked_return_type = "Operating | null")]
    pub fn operating(&self) -> Result<JsValue, JsValue> {
        let session = self.session()?;
        plain(&OperatingReport::of(
            &session.combination(),
            session.conditions(),
        ))
    }

    /// Every combination of elements, in counting order.
    #[wasm_bindgen(unchecked_return_type = "Combination[]")]
    pub fn combinations(&self) -> Result<JsValue, JsValue> {
        let mut reports = Vec::new();
        self.session()?.train().for_each_combination(|combination| {
            reports.push(CombinationReport::from(combination));
        });
        plain(&reports)
    }

    /// What every combination does, in counting order, without its speeds: even the 65 536
    /// combinations of 16 elements can be handed over.
    #[wasm_bindgen(unchecked_return_type = "Outcome[]")]
    pub fn outcomes(&self) -> Result<JsValue, JsValue> {
        let mut outcomes = Vec::new();
        self.session()?.train().for_each_combination(|combination| {
            outcomes.push(Outcome::of(combination));
        });
        plain(&outcomes)
    }

    /// Classifies every combination and reads every shaft speed, and returns how many speeds
    /// were determined: the work of the benchmark, without the cost of handing it over.
    #[wasm_bindgen(js_name = countDetermined)]
    pub fn count_determined(&self) -> Result<usize, JsValue> {
        let train = self.session()?.train();
        let shafts = train.scenario().shafts.len();
        let mut determined = 0;
        train.for_each_combination(|combination| {
            determined += (0..shafts)
                .filter(|&shaft| combination.shaft_speed(shaft).is_some())
                .count();
        });
        Ok(determined)
    }

    /// Shows an element's packs closed by `closure` (0 to 1) while they are being dragged.
    pub fn drag(&mut self, id: &str, closure: f64) -> Result<(), JsValue> {
        let session = self.session_mut()?;
        let element = element(session, id)?;
        session.drag(element, closure);
        Ok(())
    }

    /// Lets go of dragged packs without changing anything.
    #[wasm_bindgen(js_name = endDrag)]
    pub fn end_drag(&mut self) -> Result<(), JsValue> {
        self.session_mut()?.end_drag();
        Ok(())
    }

    /// Points at a shaft in every drawing, or at none.
    pub fn light(&mut self, id: Option<String>) -> Result<(), JsValue> {
        let session = self.session_mut()?;
        let shafts = &session.train().scenario().shafts;
        let shaft = id.and_then(|id| shafts.iter().position(|shaft| shaft.id == id));
        session.light(shaft);
        Ok(())
    }

    /// Sets the input speed in rev/min.
    #[wasm_bindgen(js_name = setInputSpeed)]
    pub fn set_input_speed(&mut self, speed: f64) -> Result<(), JsValue> {
        self.session_mut()?.set_input_speed(speed);
        Ok(())
    }

    /// Chooses the unit that the drawings letter speeds in: `rev/min` or `rad/s`.
    #[wasm_bindgen(js_name = setSpeedUnit)]
    pub fn set_speed_unit(&mut self, name: &str) -> Result<(), JsValue> {
        let unit = SpeedUnit::named(name).ok_or_else(|| {
            no_such(
                "speed unit",
                name,
                "a unit of speed",
                "use rev/min or rad/s",
            )
        })?;
        self.session_mut()?.set_speed_unit(unit);
        Ok(())
    }

    /// Chooses the unit that the drawings letter torques in: `N·m` or `lbf·ft`.
    #[wasm_bindgen(js_name = setTorqueUnit)]
    pub fn set_torque_unit(&mut self, name: &str) -> Result<(), JsValue> {
        let unit = TorqueUnit::named(name)
            .ok_or_else(|| no_such("torque unit", name, "a unit of torque", "use N·m or lbf·ft"))?;
        self.session_mut()?.set_torque_unit(unit);
        Ok(())
    }

    /// Chooses whether the half-section shows power by the width of its lines.
    #[wasm_bindgen(js_name = setShowPower)]
    pub fn set_show_power(&mut self, show: bool) -> Result<(), JsValue> {
        self.session_mut()?.set_show_power(show);
        Ok(())
    }

    /// The height in CSS pixels that suits the flow drawing at a width, the same for every range.
    #[wasm_bindgen(js_name = flowHeight)]
    pub fn flow_height(&self, width: f64) -> Result<f64, JsValue> {
        Ok(flow::height(&self.session()?.live(), width))
    }

    /// Sets how fast the drawings turn; 0 stands still, 1 is the full rate.
    #[wasm_bindgen(js_name = setRate)]
    pub fn set_rate(&mut self, rate: f64) -> Result<(), JsValue> {
        self.session_mut()?.set_rate(rate);
        Ok(())
    }

    /// Skips every glide: for reduced motion, and for a link just opened.
    pub fn settle(&mut self) -> Result<(), JsValue> {
        self.session_mut()?.settle();
        Ok(())
    }

    /// Lets `seconds` pass; whether the next frame will differ.
    pub fn advance(&mut self, seconds: f64) -> Result<bool, JsValue> {
        Ok(self.session_mut()?.advance(seconds))
    }

    /// Chooses the colours: `light`, `dark` or `contrast`.
    #[wasm_bindgen(js_name = setPalette)]
    pub fn set_palette(&mut self, name: &str) -> Result<(), JsValue> {
        self.palette = Palette::named(name).ok_or_else(|| {
            no_such(
                "palette",
                name,
                "a set of colours",
                "use light, dark or contrast",
            )
        })?;
        Ok(())
    }

    /// Sets how many canvas pixels there are to a CSS pixel.
    #[wasm_bindgen(js_name = setScale)]
    pub fn set_scale(&mut self, scale: f64) {
        if scale.is_finite() && scale > 0.0 {
            self.scale = scale.min(8.0);
        }
    }

    /// Chooses whether two sets that share two shafts are drawn as one lever.
    #[wasm_bindgen(js_name = setMerged)]
    pub fn set_merged(&mut self, merged: bool) {
        self.merged = merged;
    }

    /// Fits the stage into an available width; sizes in CSS pixels.
    #[wasm_bindgen(js_name = fitStage, unchecked_return_type = "StageSize")]
    pub fn fit_stage(&mut self, available: f64) -> Result<JsValue, JsValue> {
        self.stage_width = available;
        let session = self.session()?;
        plain(&session.layout().stage(available).size())
    }

    /// Where each element can be taken hold of in the half-section drawing.
    #[wasm_bindgen(unchecked_return_type = "Handle[]")]
    pub fn handles(&self) -> Result<JsValue, JsValue> {
        let session = self.session()?;
        plain(
            &session
                .layout()
                .stage(self.stage_width)
                .handles(session.train()),
        )
    }

    /// Id of the shaft drawn at a point of a drawing (`section` or `lever`), if any.
    #[wasm_bindgen(js_name = shaftAt)]
    pub fn shaft_at(&self, drawing: &str, x: f64, y: f64) -> Result<Option<String>, JsValue> {
        let session = self.session()?;
        let stage = session.layout().stage(self.stage_width);
        let point = Point { x, y };
        let shaft = match drawing {
            "section" => stage.shaft_at(point),
            "lever" => lever::shaft_at(&session.live(), &stage, self.merged, point),
            _ => None,
        };
        Ok(shaft.map(|shaft| session.train().scenario().shafts[shaft].id.clone()))
    }

    /// Draws `section`, `lever`, `flow`, `operating`, or `end:` and the id of a coupling. The canvas's backing store
    /// must have the size of the drawing times the scale.
    pub fn draw(&self, drawing: &str, canvas: HtmlCanvasElement) -> Result<(), JsValue> {
        let css = (
            f64::from(canvas.width()) / self.scale,
            f64::from(canvas.height()) / self.scale,
        );
        let scene = pictures::on_page(self.session()?, drawing, self.stage(), css)?;
        let mut backend = CanvasBackend::with_canvas_object(canvas)
            .ok_or_else(|| JsValue::from_str("the canvas has no 2d context"))?;
        paint(
            &scene,
            &mut backend,
            self.palette,
            Device::canvas(self.scale),
        )
        .map_err(|error| JsValue::from_str(&error.to_string()))
    }

    /// A drawing as the text of an SVG file, in its own size (`width` by `height` for an end
    /// view or the flow), in CSS pixels.
    pub fn svg(&self, drawing: &str, width: f64, height: f64) -> Result<String, JsValue> {
        let size = (width, height);
        let scene = pictures::scene(self.session()?, drawing, self.stage(), size)?;
        crate::draw::svg(&scene, self.palette).map_err(|error| JsValue::from_str(&error))
    }
}

impl Sandbox {
    fn session(&self) -> Result<&Session, JsValue> {
        self.session.as_ref().ok_or_else(nothing_open)
    }

    fn session_mut(&mut self) -> Result<&mut Session, JsValue> {
        self.session.as_mut().ok_or_else(nothing_open)
    }

    /// The stage's width, and whether levers are merged.
    fn stage(&self) -> (f64, bool) {
        (self.stage_width, self.merged)
    }
}

fn answer(session: &Session, applied: ElementSet) -> Result<JsValue, JsValue> {
    plain(&Answer::of(session.train(), applied))
}

fn element(session: &Session, id: &str) -> Result<usize, JsValue> {
    let set = session.train().element_set([id]).map_err(faults)?;
    set.iter().next().ok_or_else(nothing_open)
}

/// Losses with the one-way clutches settled for the duty.
fn losses_of(train: &Train, applied: ElementSet, model: &LossModel) -> LossReport {
    let duty = if model.coasting {
        Duty::Coast
    } else {
        Duty::Drive
    };
    LossReport::of(&train.settle(applied, duty).combination, model)
}

fn loss_model(mesh: f64, drag: f64, coasting: bool) -> Result<LossModel, JsValue> {
    LossModel::new(mesh, drag, coasting).map_err(|fault| faults(vec![fault]))
}
