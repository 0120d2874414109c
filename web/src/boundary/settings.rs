//! What is assumed and how it is shown: everything that is set and stays set.

use levertrain_core::operating::Conditions;
use wasm_bindgen::prelude::*;

use super::plain::{no_such, problems};
use super::sandbox::Sandbox;
use crate::draw::Palette;
use crate::units::speed_unit::SpeedUnit;
use crate::units::torque_unit::TorqueUnit;

#[wasm_bindgen]
impl Sandbox {
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
        set.map_err(|problem| problems(vec![problem]))
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

    /// Sets how fast the drawings turn; 0 stands still, 1 is the full rate.
    #[wasm_bindgen(js_name = setRate)]
    pub fn set_rate(&mut self, rate: f64) -> Result<(), JsValue> {
        self.session_mut()?.set_rate(rate);
        Ok(())
    }

    /// Chooses the colours: `light`, `dark`, `contrast` or `dark-contrast`.
    #[wasm_bindgen(js_name = setPalette)]
    pub fn set_palette(&mut self, name: &str) -> Result<(), JsValue> {
        self.palette = Palette::named(name).ok_or_else(|| {
            no_such(
                "palette",
                name,
                "a set of colours",
                "use light, dark, contrast or dark-contrast",
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
}
