//! What is done while a train opens, and when.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{View, page};
use serde_json::Value;

use crate::by_hand;

/// Another scenario with ranges and friction data, so that it has all charts.
const OTHER: &str = "05-eight-speed-four-sets";

/// Notes every drawing and chart, and the first frame with a drawing in it with what waits then.
const NOTE: &str = "(async () => { \
    const { Sandbox } = await import(new URL('engine/levertrain.js', location.href)); \
    window.noted = []; \
    const waiting = () => probe.all('details[aria-busy]').length + probe.all('.panel-body[inert]').length; \
    const { draw, chart, capacityChart } = Sandbox.prototype; \
    const note = (name) => noted.push(name); \
    Sandbox.prototype.draw = function (drawing, canvas) { \
        note(drawing); \
        return draw.call(this, drawing, canvas); \
    }; \
    Sandbox.prototype.chart = function () { note('chart'); return chart.call(this); }; \
    Sandbox.prototype.capacityChart = function () { \
        note('capacity'); \
        return capacityChart.call(this); \
    }; \
    probe.one('[data-part=scenario-picker]').addEventListener('change', () => { \
        const frames = new MutationObserver(() => { \
            frames.disconnect(); \
            requestAnimationFrame(() => note(`frame, ${waiting()}`)); \
        }); \
        frames.observe(probe.host('lever-train'), { attributeFilter: ['data-frame'] }); \
    }); \
})()";

/// Catches drawings that are done again and again while a train opens, and charts that hold up the first
/// of them, or of the train before that can still be used.
#[test]
fn a_train_is_drawn_once_before_its_charts_are_worked_out() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(by_hand::FIRST), |page| {
        page.rest()?;
        page.get::<()>(NOTE, Value::Null)?;
        page.choose(OTHER)?;
        page.rest()?;
        let noted: Vec<String> = page.get("noted", Value::Null)?;
        let expected = [
            "section", "lever", // Both panels are busy and out of use.
            "frame, 4", "chart", "capacity",
        ];
        ensure!(noted == expected, "{noted:?}");
        let waiting = "probe.all('.panel-body[inert], [aria-busy]').length";
        ensure!(page.get::<usize>(waiting, Value::Null)? == 0);
        Ok(())
    })
}
