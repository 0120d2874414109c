//! Building a train in the drawing: the six-speed of the list from nothing, with the mouse, with a finger
//! and with the keys alone.

use anyhow::{Context, Result, bail, ensure};
use levertrain_core::edit::{Edit, near_ratios, ratio_of};
use levertrain_core::{ElementSet, Scenario, State, Train};
use levertrain_tests::browser::{Device, Key, Page, View, page};
use levertrain_tests::files;
use serde_json::{Value, json};

/// The scenario that is built again.
const MODEL: &str = "09-six-speed-front-set";

/// The middle of something that can be taken hold of, brought into sight, and of what lies there whether it is that.
const PLACE: &str = "(() => { \
    const node = probe.one(`.grip[data-key=\"${args}\"]`); \
    const box = node.querySelector('.grip-face').getBoundingClientRect(); \
    return [box.x + box.width / 2, box.y + box.height / 2]; \
})()";

/// The key of what has the focus.
const FOCUS: &str = "probe.host('lever-train').shadowRoot.activeElement?.dataset.key ?? ''";

/// By what a train is built.
#[derive(Clone, Copy)]
enum By {
    Pointer(Device),
    Keys,
}

struct Builder<'a> {
    page: &'a Page,
    by: By,
}

impl Builder<'_> {
    /// Where a thing in the drawing is.
    fn place(&self, key: &str) -> Result<(f64, f64)> {
        self.page.rest()?;
        let place: [f64; 2] = self.page.get(PLACE, json!(key))?;
        Ok(place.into())
    }

    /// Goes to a thing in the drawing by arrow keys, from the one stop of the tabulator.
    fn go_to(&self, key: &str) -> Result<()> {
        self.page.rest()?;
        self.page
            .run("probe.one('.grip[tabindex=\"0\"]').focus()", Value::Null)?;
        for _ in 0..40 {
            let at: String = self.page.get(FOCUS, Value::Null)?;
            if at == key {
                return Ok(());
            }
            self.page.keys([Key::Right])?;
        }
        bail!("no arrow leads to {key}")
    }

    /// Presses a thing in the drawing.
    fn press(&self, key: &str) -> Result<()> {
        match self.by {
            By::Pointer(device) => self.page.gesture(device, &[self.place(key)?]),
            By::Keys => {
                self.go_to(key)?;
                self.page.keys([Key::Enter])
            }
        }
    }

    /// Presses a button of the strip.
    fn tool(&self, key: &str) -> Result<()> {
        let selector = format!(".strip button[data-key=\"{key}\"]");
        self.button(&selector)
    }

    fn button(&self, selector: &str) -> Result<()> {
        self.page.until(
            &format!("there is {selector}"),
            &format!("probe.all('{selector}').length === 1"),
        )?;
        self.page.run(
            "probe.one(args).scrollIntoView({ block: 'center', behavior: 'instant' })",
            json!(selector),
        )?;
        match self.by {
            By::Pointer(device) => {
                let middle = "(() => { const box = probe.one(args).getBoundingClientRect(); \
                    return [box.x + box.width / 2, box.y + box.height / 2]; })()";
                let place: [f64; 2] = self.page.get(middle, json!(selector))?;
                self.page.gesture(device, &[place.into()])?;
            }
            By::Keys => {
                self.page.run("probe.one(args).focus()", json!(selector))?;
                self.page.keys([Key::Enter])?;
            }
        }
        self.page
            .run("scrollTo({ top: 0, behavior: 'instant' })", Value::Null)
    }

    /// Joins two things, by a line or by the button for it.
    fn join(&self, from: &str, to: &str) -> Result<()> {
        let By::Pointer(device) = self.by else {
            self.press(from)?;
            self.tool("join")?;
            return self.press(to);
        };
        let (start, end) = (self.place(from)?, self.place(to)?);
        let way = (0..=6).map(|step| f64::from(step) / 6.0);
        let way = way.map(|share| {
            (
                start.0 + (end.0 - start.0) * share,
                start.1 + (end.1 - start.1) * share,
            )
        });
        self.page.gesture(device, &way.collect::<Vec<_>>())
    }

    /// Joins two things and says how.
    fn put(&self, from: &str, to: &str, how: &str) -> Result<()> {
        self.join(from, to)?;
        self.tool(how)
    }

    /// Types a number of the strip of a member.
    fn count(&self, member: &str, field: &str, count: u32) -> Result<()> {
        self.press(member)?;
        let selector = format!(".strip input[data-key=\"{field}\"]");
        self.page.run(
            "(() => { const node = probe.one(args); node.focus(); node.select(); })()",
            json!(selector),
        )?;
        let digits = count.to_string();
        self.page.keys(digits.chars())?;
        self.page.keys([Key::Escape])
    }

    /// Applies exactly these elements by their strips.
    fn apply(&self, ids: &[String]) -> Result<()> {
        let applied = self.page.seen()?.applied;
        let over = applied.iter().filter(|id| !ids.contains(id));
        for id in over.chain(ids.iter().filter(|id| !applied.contains(id))) {
            self.press(&format!("element {id}"))?;
            self.tool("apply")?;
            self.tool("close")?;
        }
        Ok(())
    }
}

/// The text of the train that is kept, once its last range is in it.
fn built(page: &Page) -> Result<Scenario> {
    page.until(
        "it is kept",
        "Object.values(localStorage).some((text) => text.includes('\\\\\"g7\\\\\"'))",
    )?;
    let texts: Vec<String> = page.get(
        "Object.entries(localStorage).filter(([key]) => key.startsWith('levertrain draft')) \
            .map(([, value]) => JSON.parse(value).text)",
        Value::Null,
    )?;
    let text = texts.first().context("one draft")?;
    Scenario::parse(text).map_err(|problems| anyhow::anyhow!("{problems:?}"))
}

fn build(page: &Page, by: By) -> Result<()> {
    let mut files = files::scenarios()?.into_iter();
    let file = files.find(|file| file.stem == MODEL).context(MODEL)?;
    let model = Train::parse(&file.text).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let builder = Builder { page, by };
    page.unfold("edit")?;
    page.until("there are parts", "probe.all('.grip').length > 5")?;
    builder.button("[data-part=edit] button[data-key=begin]")?;
    page.until(
        "nothing is there",
        "probe.all('.grip[data-kind=set]').length === 0",
    )?;
    builder.press("gap 0")?;
    builder.tool("add planetary")?;
    builder.press("gap 1")?;
    builder.tool("add ravigneaux")?;
    if page.shows("[data-part=whole]")? {
        builder.button("[data-part=whole]")?;
    }
    let [sun_1, carrier_1, ring_1] = [0, 1, 2].map(|at| format!("member p1 {at}"));
    let [small, large, carrier_2, ring_2] = [0, 1, 2, 3].map(|at| format!("member p2 {at}"));
    for (set, coupling) in model.scenario().couplings.iter().enumerate() {
        let mut copy = coupling.clone();
        let teeth: Vec<u32> = copy
            .parts()
            .teeth
            .iter()
            .map(|(_, teeth)| teeth.get())
            .collect();
        let members = match set {
            0 => vec![&sun_1, &carrier_1, &ring_1],
            _ => vec![&small, &carrier_2, &large, &carrier_2, &ring_2],
        };
        for (gear, (member, teeth)) in members.into_iter().zip(teeth).enumerate() {
            builder.count(member, &format!("teeth {gear}"), teeth)?;
        }
    }
    builder.count(&carrier_1, "count", 4)?;
    builder.put(&sun_1, "housing", "fast")?;
    builder.put("end input", &ring_1, "fast")?;
    builder.put(&ring_2, "end output", "fast")?;
    builder.put(&carrier_1, &small, "clutch")?;
    builder.put(&carrier_1, &large, "clutch")?;
    builder.put(&ring_1, &carrier_2, "clutch")?;
    builder.put(&large, "housing", "brake")?;
    builder.put(&carrier_2, "housing", "brake")?;
    for range in &model.scenario().ranges {
        builder.apply(&range.applied)?;
        builder.button("[data-part=edit] button[data-key=\"add range\"]")?;
    }

    let scenario = built(page)?;
    let train = Train::new(scenario).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let ids = |train: &Train| -> Vec<String> {
        let elements = train.scenario().elements.iter();
        elements.map(|element| element.id().to_owned()).collect()
    };
    ensure!(ids(&train) == ids(&model), "{:?}", ids(&train));
    for (ours, theirs) in train
        .scenario()
        .couplings
        .iter()
        .zip(&model.scenario().couplings)
    {
        let teeth = |coupling: &levertrain_core::coupling::Coupling| -> Vec<u32> {
            let mut copy = coupling.clone();
            copy.parts()
                .teeth
                .iter()
                .map(|(_, teeth)| teeth.get())
                .collect()
        };
        ensure!(teeth(ours) == teeth(theirs), "{ours:?}");
        ensure!(
            ours.clone().parts().count == theirs.clone().parts().count,
            "{ours:?}"
        );
    }
    let elements = model.scenario().elements.len();
    for bits in 0_u32..1 << elements {
        let applied: ElementSet = (0..elements).filter(|at| bits >> at & 1 == 1).collect();
        let [ours, theirs] = [&train, &model].map(|train| train.solve(applied).state().clone());
        ensure!(ours == theirs, "{bits:b}: {ours:?}, not {theirs:?}");
    }
    let ranges = |train: &Train| -> Vec<Vec<String>> {
        let ranges = train.scenario().ranges.iter();
        ranges
            .map(|range| {
                let mut applied = range.applied.clone();
                applied.sort();
                applied
            })
            .collect()
    };
    ensure!(ranges(&train) == ranges(&model), "{:?}", ranges(&train));
    Ok(())
}

/// Catches a line that joins nothing, the wrong things or the same thing twice, parts that lie under others,
/// and a strip that is out of reach.
#[test]
fn the_six_speed_is_built_with_the_mouse() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        build(page, By::Pointer(Device::Mouse))
    })
}

/// Catches a finger that scrolls the drawing instead of drawing a line.
#[test]
fn the_six_speed_is_built_with_a_finger() -> Result<()> {
    page::open(View::PHONE, "", |page| {
        build(page, By::Pointer(Device::Touch))
    })
}

/// Catches what a pointer alone can do.
#[test]
fn the_six_speed_is_built_with_the_keys() -> Result<()> {
    page::open(View::LAPTOP, "", |page| build(page, By::Keys))
}

/// Catches an end of a clutch that stays where it was, the wrong one that is moved, a brake that loses the housing,
/// and what only a pointer can do.
#[test]
fn ends_of_clutches_are_put_on_other_shafts() -> Result<()> {
    let ways = [
        (View::LAPTOP, By::Pointer(Device::Mouse)),
        (View::PHONE, By::Pointer(Device::Touch)),
        (View::LAPTOP, By::Keys),
    ];
    for (view, by) in ways {
        page::open(view, &format!("#s={MODEL}"), |page| {
            page.unfold("edit")?;
            page.until("there are parts", "probe.all('.grip').length > 5")?;
            if page.shows("[data-part=whole]")? {
                page.click("[data-part=whole]")?;
            }
            let builder = Builder { page, by };
            let labels = "probe.all('[data-part=edit] [data-element] select').map((node) => \
                [node.closest('[data-element]').dataset.element, node.value])";
            let ends = || -> Result<Vec<(String, String)>> { page.get(labels, Value::Null) };
            let mut expected = ends()?;
            let shaft = |id: &str, at: usize| -> Result<String> {
                let of = expected.iter().filter(|(element, _)| element == id);
                of.map(|(_, shaft)| shaft.clone()).nth(at).context("an end")
            };
            // The ring, which the input drives, in the place of the carrier; and a brake on the other sun.
            let (input, small) = (shaft("K", 0)?, shaft("H", 1)?);
            let instead = [
                ("H", 0, "member p1 2", &input),
                ("V", 0, "member p2 0", &small),
            ];
            let changes: Vec<(usize, String)> = instead
                .iter()
                .map(|(id, end, _, shaft)| {
                    let first = expected.iter().position(|(element, _)| element == id);
                    Ok((first.context("an element")? + end, (*shaft).clone()))
                })
                .collect::<Result<_>>()?;
            for (at, shaft) in changes {
                ensure!(expected[at].1 != shaft, "it is there already");
                expected[at].1 = shaft;
            }
            builder.put("member p1 2", "element H", "end 0")?;
            let (from, to) = match by {
                By::Keys => ("element V", "member p2 0"),
                By::Pointer(_) => ("member p2 0", "element V"),
            };
            builder.put(from, to, "end 0")?;
            ensure!(ends()? == expected, "{:?}, not {expected:?}", ends()?);
            let offered: usize =
                page.get("probe.all('.strip:not([hidden])').length", Value::Null)?;
            ensure!(offered == 0, "the strip stays");
            Ok(())
        })?;
    }
    Ok(())
}

/// Catches a name that cannot be given in the drawing, that loses the cursor at every letter, or that takes a step
/// of the history for each.
#[test]
fn names_are_given_in_the_drawing() -> Result<()> {
    for (view, by) in [
        (View::LAPTOP, By::Pointer(Device::Mouse)),
        (View::PHONE, By::Pointer(Device::Touch)),
        (View::LAPTOP, By::Keys),
    ] {
        page::open(view, &format!("#s={MODEL}"), |page| {
            page.unfold("edit")?;
            page.until("there are parts", "probe.all('.grip').length > 5")?;
            if page.shows("[data-part=whole]")? {
                page.click("[data-part=whole]")?;
            }
            let builder = Builder { page, by };
            for (key, list) in [
                (
                    "set p1",
                    "probe.all('[data-part=edit] [data-set] input[type=text]')",
                ),
                (
                    "element H",
                    "probe.all('[data-part=edit] [data-element] input[type=text]')",
                ),
                (
                    "member p1 2",
                    "probe.all('[data-part=edit] .edit-shafts input[type=text]')",
                ),
            ] {
                let names = format!("{list}.map(({{ value }}) => value)");
                let before: Vec<String> = page.get(&names, Value::Null)?;
                page.run(
                    "probe.one(`.grip[data-key=\"${args}\"]`).scrollIntoView({ block: 'center', behavior: 'instant' })",
                    json!(key),
                )?;
                builder.press(key)?;
                page.run(
                    "(() => { const node = probe.one('.strip input[data-key=name]'); node.focus(); node.setSelectionRange(0, 0); })()",
                    Value::Null,
                )?;
                page.keys("Mid ".chars())?;
                let own: String = page.get(
                    "probe.one('.strip input[data-key=name]').value",
                    Value::Null,
                )?;
                let old = own
                    .strip_prefix("Mid ")
                    .with_context(|| format!("{own:?}"))?;
                let expected: Vec<String> = before
                    .iter()
                    .map(|name| {
                        if name == old {
                            own.clone()
                        } else {
                            name.clone()
                        }
                    })
                    .collect();
                ensure!(expected != before, "{old:?} is none of {before:?}");
                let now: Vec<String> = page.get(&names, Value::Null)?;
                ensure!(now == expected, "{now:?}, not {expected:?}");
                if !key.starts_with("member") {
                    let title: String =
                        page.get("probe.one('.strip b').textContent", Value::Null)?;
                    ensure!(title == own, "{title:?}");
                }
                page.run(
                    "probe.one('.strip-bar [data-key=undo]').click()",
                    Value::Null,
                )?;
                let back: Vec<String> = page.get(&names, Value::Null)?;
                ensure!(back == before, "one step back: {back:?}");
                let field: String = page.get(
                    "probe.one('.strip input[data-key=name]').value",
                    Value::Null,
                )?;
                ensure!(field == old, "the strip says {field:?}");
                builder.tool("close")?;
            }
            Ok(())
        })?;
    }
    Ok(())
}

/// Catches a clutch that springs back from where it was drawn to, and a choice that is lost with a reload.
#[test]
fn a_brake_is_drawn_where_it_was_put() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={MODEL}"), |page| {
        page.unfold("edit")?;
        page.until("there are parts", "probe.all('.grip').length > 5")?;
        let builder = Builder {
            page,
            by: By::Pointer(Device::Mouse),
        };
        let x = |key: &str| builder.place(key).map(|place| place.0);
        ensure!(x("element V")? < x("gap 2")? - 100.0, "it is there already");
        builder.join("element V", "gap 2")?;
        let put = |what: &str| -> Result<()> {
            let [brake, left, right] = [x("element V")?, x("set p2")?, x("end output")?];
            ensure!(
                (left..=right).contains(&brake),
                "{what}: {brake} between {left} and {right}"
            );
            Ok(())
        };
        put("dropped behind the last set")?;
        page.until(
            "it is kept",
            "Object.values(localStorage).some((text) => text.includes('gap'))",
        )?;
        page.reload()?;
        page.unfold("edit")?;
        page.until("there are parts again", "probe.all('.grip').length > 5")?;
        put("after a reload")?;
        builder.press("element V")?;
        builder.tool("any place")?;
        ensure!(x("element V")? < x("gap 2")? - 100.0, "left to the drawing");
        Ok(())
    })
}

/// Catches a handle that stops at teeth that do not mesh, leaves a step of the history for every tooth, or
/// a chart that does not say what was before.
#[test]
fn a_ratio_is_drawn_through_teeth_that_mesh() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={MODEL}"), |page| {
        let mut files = files::scenarios()?.into_iter();
        let file = files.find(|file| file.stem == MODEL).context(MODEL)?;
        let model = Train::parse(&file.text).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
        let scenario = model.scenario();
        let near = near_ratios(&scenario.couplings[0]);
        let (_, own) = ratio_of(&scenario.couplings[0]).context("a ratio")?;
        let at = near
            .iter()
            .position(|near| near.ratio == own)
            .context("its own")?;
        let three_on = near.get(at + 3).context("three on")?;
        let cut = json!({"edit": "cut", "set": "p1", "teeth": three_on.teeth});
        let cut =
            Edit::parse(&cut.to_string()).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
        let changed =
            Train::new(cut.of(scenario)?).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
        let exact = |train: &Train| match train.solve(train.range(0)).state() {
            State::Driving(ratio) => Ok(ratio.to_string()),
            other => bail!("{other:?}"),
        };

        page.unfold("edit")?;
        page.until("there are parts", "probe.all('.grip').length > 5")?;
        let builder = Builder { page, by: By::Keys };
        builder.press("set p1")?;
        page.run("probe.one('.strip [data-key=ratio]').focus()", Value::Null)?;
        page.keys([Key::Right, Key::Right, Key::Right])?;
        ensure!(
            page.seen()?.exact == Some(exact(&changed)?),
            "{:?}",
            page.seen()?
        );
        let told = || -> Result<()> {
            let was = "probe.one('[data-part=chart] tbody tr .was').textContent";
            let was: String = page.get(was, Value::Null)?;
            ensure!(was == "was 3.857", "{was}");
            Ok(())
        };
        told()?;
        // It stays told until another ratio changes.
        page.run(
            "(() => { const name = probe.one('[data-part=edit] [data-key=name]'); \
                name.value = 'Another name'; \
                name.dispatchEvent(new Event('input', { bubbles: true })); })()",
            Value::Null,
        )?;
        told()?;
        page.click("[data-part=edit] button[data-key=undo]")?;
        page.click("[data-part=edit] button[data-key=undo]")?;
        ensure!(
            page.seen()?.exact == Some(exact(&model)?),
            "one step back: {:?}",
            page.seen()?
        );
        let left: usize = page.get("probe.all('.was').length", Value::Null)?;
        ensure!(left == 0, "{left} told after the way back");
        Ok(())
    })
}
