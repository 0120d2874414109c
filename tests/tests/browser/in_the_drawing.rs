//! Changing a train where it is drawn: what the strip beside a part offers, by pointer, finger and keys.

use anyhow::{Context, Result, bail, ensure};
use levertrain_core::edit::{Edit, near_ratios, ratio_of};
use levertrain_core::{State, Train};
use levertrain_tests::browser::{Device, Key, View, page};
use levertrain_tests::files;
use serde_json::{Value, json};

use super::builder::{Builder, By, MODEL};
use super::by_hand::{self, FIRST};

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

/// Catches sets that cannot be turned round, or not back, and a choice that is lost with a reload.
#[test]
fn a_set_with_steps_is_turned_round() -> Result<()> {
    let ways = [
        (View::LAPTOP, By::Pointer(Device::Mouse)),
        (View::PHONE, By::Pointer(Device::Touch)),
        (View::LAPTOP, By::Keys),
    ];
    for (view, by) in ways {
        page::open(view, "#s=10-stepped-two-speed", |page| {
            page.unfold("edit")?;
            page.until("there are parts", "probe.all('.grip').length > 5")?;
            let builder = Builder { page, by };
            // Sun and ring each mesh with a step of their own: turned round, they stand the other way.
            let sun_is_first = || -> Result<bool> {
                let [sun, ring] =
                    ["member p1 0", "member p1 2"].map(|member| builder.place(member));
                Ok(sun?.0 < ring?.0)
            };
            let before = sun_is_first()?;
            let turn = || -> Result<()> {
                page.run(
                    "probe.one('.grip[data-key=\"set p1\"]').scrollIntoView({ block: 'center', behavior: 'instant' })",
                    Value::Null,
                )?;
                builder.press("set p1")?;
                builder.tool("turn")?;
                builder.tool("close")
            };
            turn()?;
            ensure!(sun_is_first()? != before, "it stands as before");
            page.until(
                "it is kept",
                "Object.values(localStorage).some((text) => text.includes('turned'))",
            )?;
            page.reload()?;
            page.unfold("edit")?;
            page.until("there are parts again", "probe.all('.grip').length > 5")?;
            ensure!(sun_is_first()? != before, "after a reload it is as before");
            turn()?;
            ensure!(sun_is_first()? == before, "it does not turn back");
            Ok(())
        })?;
    }
    Ok(())
}

/// Catches a number to which digits are added where it was to be another.
#[test]
fn a_press_into_a_number_has_it_typed_over() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={MODEL}"), |page| {
        page.unfold("edit")?;
        page.until("there are parts", "probe.all('.grip').length > 5")?;
        let by = By::Pointer(Device::Mouse);
        let builder = Builder { page, by };
        builder.press("member p1 2")?;
        for field in [
            ".strip [data-key=\"teeth 2\"]",
            "[data-part=edit] [data-key=\"teeth p1 0\"]",
        ] {
            let value: u32 =
                page.get(&format!("Number(probe.one('{field}').value)"), Value::Null)?;
            builder.button(field)?;
            page.keys((value + 2).to_string().chars())?;
            let typed: String = page.get(&format!("probe.one('{field}').value"), Value::Null)?;
            ensure!(typed == (value + 2).to_string(), "{field}: {typed}");
            // A second press puts the cursor into it, as everywhere.
            builder.button(field)?;
            page.keys([Key::End, Key::Backspace])?;
            let left: String = page.get(&format!("probe.one('{field}').value"), Value::Null)?;
            ensure!(
                typed.starts_with(&left) && left.len() + 1 == typed.len(),
                "{field}: {left}"
            );
        }
        Ok(())
    })
}

/// Catches a choice of what to join that the tabulator leaves, and arrows that lead to what cannot be joined.
#[test]
fn the_tabulator_goes_through_what_can_be_joined() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={MODEL}"), |page| {
        page.unfold("edit")?;
        page.until("there are parts", "probe.all('.grip').length > 5")?;
        let builder = Builder { page, by: By::Keys };
        builder.press("member p1 2")?;
        builder.tool("join")?;
        let at = || -> Result<String> {
            page.get(
                "probe.host('lever-train').shadowRoot.activeElement?.dataset.kind ?? ''",
                Value::Null,
            )
        };
        let mut kinds = Vec::new();
        for _ in 0..6 {
            kinds.push(at()?);
            page.keys([Key::Tab])?;
        }
        let member =
            |kind: &String| ["member", "end", "housing", "element"].contains(&kind.as_str());
        ensure!(kinds.iter().all(member), "{kinds:?}");
        builder.press("housing")?;
        ensure!(
            page.shows(".strip [data-key=brake]")?,
            "no brake is offered"
        );
        Ok(())
    })
}

/// Catches separate actions that one step back takes together, a way back that is lost with the focus, and focus that
/// falls to the page.
#[test]
fn each_action_is_a_step_and_the_way_back_is_there_from_everywhere() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={MODEL}"), |page| {
        page.unfold("edit")?;
        page.until("there are parts", "probe.all('.grip').length > 5")?;
        let by = By::Pointer(Device::Mouse);
        let builder = Builder { page, by };
        let teeth = || -> Result<Vec<String>> {
            page.get(
                "[0, 1, 2].map((gear) => probe.one(`[data-part=edit] [data-key='teeth p1 ${gear}']`).value)",
                Value::Null,
            )
        };
        let start = teeth()?;
        let typed = "[data-part=edit] [data-key=\"teeth p1 0\"]";
        builder.button(typed)?;
        page.keys("38".chars())?;
        let broken = teeth()?;
        ensure!(broken != start, "nothing is typed");
        builder.button("[data-part=edit] [data-key=\"fit p1\"]")?;
        let mended = teeth()?;
        ensure!(mended != broken, "nothing is mended");
        let inside: bool = page.get(
            "probe.one('[data-part=edit] .edit-form').contains(probe.host('lever-train').shadowRoot.activeElement)",
            Value::Null,
        )?;
        ensure!(inside, "the focus has left the form");
        // Another ratio of the same set, drawn and then drawn on.
        builder.press("set p1")?;
        let mut steps = vec![start, broken, mended];
        for share in [0.8, 0.2] {
            let handle: [f64; 3] = page.get(
                "(() => { const box = probe.one('.strip [data-key=ratio]').getBoundingClientRect(); \
                    return [box.x, box.y + box.height / 2, box.width]; })()",
                Value::Null,
            )?;
            let [left, y, width] = handle;
            let to = left + width * share;
            page.gesture(Device::Mouse, &[(left + width * 0.5, y), (to, y)])?;
            steps.push(teeth()?);
        }
        ensure!(steps[2] != steps[3] && steps[3] != steps[4], "{steps:?}");
        // From wherever the focus is: the page itself, or the list of all combinations.
        page.run(
            "probe.host('lever-train').shadowRoot.activeElement?.blur()",
            Value::Null,
        )?;
        for expected in steps.iter().rev().skip(1) {
            page.chord(Key::Control, 'z')?;
            ensure!(teeth()? == *expected, "{:?}, not {expected:?}", teeth()?);
        }
        page.chord(Key::Control, 'y')?;
        ensure!(teeth()? == steps[1], "{:?} again", teeth()?);
        Ok(())
    })
}

/// Catches a range that is taken away and the focus with it, and a name that was there before.
#[test]
fn a_range_that_goes_leaves_the_focus_to_the_next() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={MODEL}"), |page| {
        page.unfold("edit")?;
        page.until(
            "there are ranges",
            "probe.all('[data-part=edit] [data-range]').length > 3",
        )?;
        let ids: Vec<String> = page.get(
            "probe.all('[data-part=edit] [data-range]').map(({ dataset }) => dataset.range)",
            Value::Null,
        )?;
        page.run(
            "(() => { const node = probe.one(`[data-key=\"remove range ${args}\"]`); node.focus(); node.click(); })()",
            json!(ids[1]),
        )?;
        let key: String = page.get(
            "probe.host('lever-train').shadowRoot.activeElement?.dataset.key ?? ''",
            Value::Null,
        )?;
        ensure!(key == format!("remove range {}", ids[2]), "{key:?}");
        page.run("probe.host('lever-train').apply(['H'])", Value::Null)?;
        page.run("probe.one('[data-key=\"add range\"]').click()", Value::Null)?;
        let label: String = page.get(
            "probe.all('[data-part=edit] [data-range] input').at(-1).value",
            Value::Null,
        )?;
        ensure!(label == format!("Range {}", ids.len()), "{label}");
        Ok(())
    })
}

/// Catches parts that move to a better place while somebody has hold of one.
#[test]
fn nothing_is_bettered_under_a_hand() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        page.unfold("edit")?;
        page.run(
            "probe.one('.section').dispatchEvent(new PointerEvent('pointerdown', { bubbles: true })); \
             const fields = probe.all('[data-part=edit] [data-key]'); \
             const field = fields.find(({ dataset }) => /^teeth .* 0$/.test(dataset.key)); \
             field.value = String(Number(field.value) + 1); \
             field.dispatchEvent(new Event('input', { bubbles: true }))",
            Value::Null,
        )?;
        let waits: bool = page.get(
            "new Promise((resolve) => setTimeout(() => resolve(probe.one('.section').hasAttribute('data-mends')), 300))",
            Value::Null,
        )?;
        ensure!(waits, "it did not wait");
        page.run("dispatchEvent(new PointerEvent('pointerup'))", Value::Null)?;
        page.until(
            "it has gone on",
            "!probe.one('.section').hasAttribute('data-mends')",
        )
    })
}
