//! The plot of what was found: each point stands for a row.

use anyhow::{Context, Result, ensure};
use fantoccini::key::Key;
use levertrain_tests::browser::{Device, Page, View, page};
use serde_json::Value;

use crate::find::{SIX, listed};
use crate::search_panel::{TEETH, write};

/// The point that keys are at: which find it is, where it stands in the page, and its number.
fn point(page: &Page) -> Result<(String, f64, f64, usize)> {
    page.get(
        "(() => { \
            const point = probe.one('.find-point'); \
            const { left, top, width, height } = point.getBoundingClientRect(); \
            return [point.dataset.find, left + width / 2, top + height / 2, Number(point.getAttribute('aria-valuenow'))]; \
        })()",
        Value::Null,
    )
}

fn marked(page: &Page) -> Result<Vec<String>> {
    page.get(
        "probe.all('[data-part=finds] [aria-current]').map(({ dataset }) => dataset.find)",
        Value::Null,
    )
}

/// Catches points that show another train than they stand for, by pointer, by touch and by keys.
#[test]
fn a_point_of_the_plot_does_what_its_row_does() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        TEETH.open(page)?;
        write(page, "#find-ratio-1", "2.8")?;
        write(page, "#find-tolerance", "4")?;
        page.click("label[for=find-best-steps]")?;
        page.click("[data-part=find-begin]")?;
        TEETH.wait(page)?;
        let all = listed(page)?;
        ensure!(all.len() > 3, "{all:?}");
        // Keys go from the left to the right, each point once.
        page.run(
            "probe.one('.find-point').scrollIntoView({ block: 'center' }); probe.one('.find-point').focus()",
            Value::Null,
        )?;
        page.keys([Key::Home])?;
        let mut ways = Vec::new();
        for number in 1..=all.len() {
            page.rest()?;
            let (find, x, y, now) = point(page)?;
            ensure!(now == number, "{now}, not {number}");
            ensure!(all.contains(&find), "{find} is listed nowhere");
            ways.push((find, x, y));
            page.keys([Key::Right])?;
        }
        ensure!(ways.windows(2).all(|two| two[0].1 <= two[1].1), "{ways:?}");
        let mut finds: Vec<&String> = ways.iter().map(|(find, ..)| find).collect();
        finds.sort();
        finds.dedup();
        ensure!(finds.len() == all.len(), "a point is there twice");
        page.keys([Key::Enter])?;
        page.rest()?;
        ensure!(
            marked(page)? == [ways[all.len() - 1].0.clone()],
            "Enter chooses"
        );
        // Where no other point is near, a click and a tap mean that one.
        let alone = ways[..ways.len() - 1].iter().position(|(_, x, y)| {
            let near = ways.iter().filter(|(_, a, b)| (a - x).hypot(b - y) < 8.0);
            near.count() == 1
        });
        let (find, ..) = &ways[alone.context("no point stands alone")?];
        for device in [Device::Mouse, Device::Touch] {
            page.run("probe.one('.find-point').focus()", Value::Null)?;
            page.keys([Key::Home, Key::Enter])?;
            page.rest()?;
            // On the stage another train may have moved the panel.
            page.run(
                "probe.one('.find-point').scrollIntoView({ block: 'center' })",
                Value::Null,
            )?;
            page.keys(vec![Key::Right; alone.unwrap_or(0)])?;
            page.rest()?;
            let (at, x, y, _) = point(page)?;
            ensure!(at == *find, "{at}, not {find}");
            page.keys([Key::End])?;
            page.gesture(device, &[(x + 3.0, y)])?;
            page.rest()?;
            ensure!(marked(page)? == [find.clone()], "{device:?} means another");
        }
        let drawn: bool = page.get(
            "probe.one('canvas[data-drawing=finds]').height > 100",
            Value::Null,
        )?;
        ensure!(drawn, "nothing is drawn");
        // Other axes, other places.
        let before = point(page)?;
        page.run(
            "const field = probe.one('#find-up'); field.value = 'efficiency'; field.dispatchEvent(new Event('change'))",
            Value::Null,
        )?;
        page.rest()?;
        let after = point(page)?;
        ensure!(
            after.0 == before.0 && after.2 != before.2,
            "{before:?}, {after:?}"
        );
        Ok(())
    })
}
