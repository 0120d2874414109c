//! The page in the room there is: a phone upright and on its side, a laptop, a screen on the wall.

use anyhow::{Context, Result, ensure};
use levertrain_core::Train;
use levertrain_tests::browser::{Device, Key, Page, View, page};
use levertrain_tests::files;
use levertrain_web::draw::scene::Point;
use levertrain_web::draw::section::Layout;
use serde_json::{Value, json};

use crate::by_core;
use crate::by_hand::{self, FIRST, THIRD};
use crate::language;

const ON_ITS_SIDE: View = View {
    width: 844,
    height: 390,
    ..View::PHONE
};

/// Screens on a desk and on a wall, and how much larger than on a laptop all must be there.
const LARGE: [(View, f64); 2] = [
    (
        View {
            width: 1920,
            height: 1080,
            ..View::LAPTOP
        },
        1.2,
    ),
    (
        View {
            width: 2560,
            height: 1440,
            ..View::LAPTOP
        },
        1.6,
    ),
];

const WHOLE: &str = "[data-part=whole]";

/// Catches a switch that is out of sight when the page opens, and gears that turn without anybody
/// seeing it: the marks on their teeth must move where the drawing is in sight too.
#[test]
fn turning_is_offered_in_sight_and_is_seen() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        for view in [View::LAPTOP, View::PHONE, ON_ITS_SIDE] {
            page.change_view(view)?;
            page.goto(&format!("index.html{}", by_hand::link(FIRST)))?;
            let bottom: f64 = page.get(
                "probe.one('[data-part=turning]').getBoundingClientRect().bottom",
                Value::Null,
            )?;
            ensure!(bottom < f64::from(view.height), "{bottom} on {view:?}");
        }
        let pixels = "window.pixels = () => { \
            const canvas = probe.one('canvas[data-drawing=section]'); \
            const { width, height } = canvas; \
            return canvas.getContext('2d').getImageData(0, 0, width, height).data; \
        }; window.before = pixels()";
        page.run(pixels, Value::Null)?;
        page.click("[data-part=turning]")?;
        page.until("some frames were drawn", "probe.drawn() > 20")?;
        page.click("[data-part=turning]")?;
        page.rest()?;
        let changed: f64 = page.get(
            "(() => { const now = pixels(); let changed = 0; \
                for (let at = 0; at < now.length; at += 4) \
                    changed += Math.abs(now[at] - before[at]) > 40 ? 1 : 0; \
                return changed / (now.length / 4); })()",
            Value::Null,
        )?;
        ensure!(changed > 0.002, "{changed} of the pixels have changed");
        Ok(())
    })
}

/// Brings each switch to the middle of the window and tells of those that something lies over, and of
/// those beside which no ratio, or what stands in its place, is to be read.
const UNSEEN: &str = "(async () => { \
    const root = probe.host('lever-train').shadowRoot; \
    const frame = () => new Promise((done) => requestAnimationFrame(() => setTimeout(done))); \
    const over = (node, x, y) => node.contains(root.elementFromPoint(x, y)); \
    const onTop = (node) => { \
        const { left, top, width, height } = node.getBoundingClientRect(); \
        return width > 0 && over(node, left + width / 2, top + height / 2); \
    }; \
    const unseen = []; \
    for (const node of probe.all('[role=switch]')) { \
        node.scrollIntoView({ block: 'center', inline: 'center', behavior: 'instant' }); \
        await frame(); await frame(); \
        const id = node.dataset.elementId; \
        if (!onTop(node)) unseen.push(`${id} is covered`); \
        const answers = probe.all('.answer-figure, [data-part=brief] b'); \
        if (!answers.some(onTop)) unseen.push(`${id}: no ratio`); \
    } \
    return unseen; \
})()";

/// Catches an answer that is scrolled away where its packs are, and one that then lies over them.
#[test]
fn the_ratio_is_in_sight_wherever_a_pack_is_dragged() -> Result<()> {
    page::open(View::PHONE, "", |page| {
        for view in [View::PHONE, ON_ITS_SIDE] {
            page.change_view(view)?;
            page.goto("index.html")?;
            for file in files::scenarios()? {
                page.turn_to(&file.stem)?;
                let unseen: Vec<String> = page.get(UNSEEN, Value::Null)?;
                ensure!(unseen.is_empty(), "{} on {view:?}: {unseen:?}", file.stem);
            }
        }
        page.goto(&format!("index.html#s={}&on=J", by_hand::STEM))?;
        let pack = page.pack(&by_hand::train()?, "W")?;
        page.run(
            "window.read = []; new MutationObserver(() => \
                read.push(probe.text('[data-part=brief]'))) \
                .observe(probe.one('[data-part=brief]'), { childList: true })",
            Value::Null,
        )?;
        page.drag(Device::Touch, &pack, 0.9)?;
        page.rest()?;
        let read: Vec<String> = page.get("read", Value::Null)?;
        let preview = read.first().context("nothing changes while dragging")?;
        let last = read.last().context("nothing")?;
        ensure!(
            preview.starts_with(FIRST.ratio) && preview.contains("Preview"),
            "{read:?}"
        );
        ensure!(
            last.starts_with(FIRST.ratio) && !last.contains("Preview"),
            "{read:?}"
        );
        Ok(())
    })
}

fn sides(page: &Page) -> Result<[bool; 2]> {
    page.get(
        "['left', 'right'].map((side) => \
            getComputedStyle(probe.one(`.more-${side}`)).display !== 'none')",
        Value::Null,
    )
}

/// Catches a train of which a phone shows a part and nothing says so, and one that cannot be seen as a
/// whole, or not be used then.
#[test]
fn a_phone_shows_a_train_whole_or_says_where_it_goes_on() -> Result<()> {
    page::open(View::PHONE, &by_hand::link(THIRD), |page| {
        ensure!(
            sides(page)? == [false, true],
            "nothing says that it goes on"
        );
        page.run(
            "const stage = probe.one('[data-part=stage]'); stage.scrollLeft = stage.scrollWidth",
            Value::Null,
        )?;
        page.rest()?;
        ensure!(sides(page)? == [true, false], "nothing says where it began");

        page.run("probe.one(args).focus()", json!(WHOLE))?;
        page.keys([Key::Enter])?;
        page.rest()?;
        ensure!(sides(page)? == [false, false], "it goes on though whole");
        let [sheet, room]: [f64; 2] = page.get(
            "[probe.one('[data-part=stage]').scrollWidth, probe.one('[data-part=stage]').clientWidth]",
            Value::Null,
        )?;
        ensure!(sheet <= room, "{sheet} px in {room} px");
        let train = by_hand::train()?;
        for element in &train.scenario().elements {
            let pack = page.pack(&train, element.id())?;
            let at = "probe.host('lever-train').shadowRoot \
                .elementFromPoint(args[0], args[1])?.dataset.elementId";
            let on_top: Option<String> = page.get(at, json!(pack.centre))?;
            ensure!(
                on_top.as_deref() == Some(element.id()),
                "at the middle of {} lies {on_top:?}",
                element.id()
            );
        }
        let pack = page.pack(&train, "V")?;
        page.drag(Device::Touch, &pack, -0.9)?;
        ensure!(page.seen()?.applied == ["J"], "no drag in the whole train");
        ensure!(
            points_at_what_is_drawn(page, &train)?,
            "nothing to point at"
        );

        // Where there is room it is whole anyway.
        page.change_view(View::LAPTOP)?;
        ensure!(!page.shows(WHOLE)?, "the switch is for nothing here");
        page.change_view(View::PHONE)?;
        page.run(
            "probe.one(args).scrollIntoView({ block: 'center', behavior: 'instant' })",
            json!(WHOLE),
        )?;
        page.click(WHOLE)?;
        page.rest()?;
        ensure!(sides(page)? == [false, true], "it cannot be switched off");
        Ok(())
    })
}

/// Catches a train with longer names of which a laptop cuts an end off.
#[test]
fn a_laptop_shows_the_widest_train_whole_in_german_too() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        language::speak_german(page)?;
        page.goto("index.html#s=05-eight-speed-four-sets")?;
        ensure!(sides(page)? == [false, false], "an end is cut off");
        Ok(())
    })
}

/// Points at the rightmost place of the half-section where a shaft is drawn, and says whether the page
/// names that shaft.
fn points_at_what_is_drawn(page: &Page, train: &Train) -> Result<bool> {
    let [left, top, available, zoom]: [f64; 4] = page.get(
        "(() => { const stage = probe.one('[data-part=stage]'); \
            stage.scrollIntoView({ block: 'start', behavior: 'instant' }); \
            const { left, top } = probe.one('canvas[data-drawing=section]').getBoundingClientRect(); \
            return [left, top, stage.clientWidth, Number(stage.dataset.zoom)]; })()",
        Value::Null,
    )?;
    let layout = Layout::of(train);
    let stage = layout.stage(available / zoom);
    let size = stage.size();
    // Not on a pack, whose switch takes what is pointed at, nor under the line at the top.
    let handles = stage.handles(train);
    let free = |point: Point| {
        point.y * zoom > 50.0
            && handles.iter().all(|handle| {
                !(handle.left - 8.0..=handle.left + handle.width + 8.0).contains(&point.x)
            })
    };
    let points = (0..size.width as usize).rev().flat_map(|x| {
        (0..size.section_height as usize)
            .step_by(3)
            .map(move |y| Point {
                x: x as f64,
                y: y as f64,
            })
    });
    let (point, shaft) = points
        .filter(|point| free(*point))
        .find_map(|point| {
            // Not at the edge of what is meant: the pointer stands on whole pixels.
            let shaft = stage.shaft_at(point)?;
            let around = [(-2.0, 0.0), (2.0, 0.0), (0.0, -2.0), (0.0, 2.0)];
            let mut around = around
                .map(|(x, y)| {
                    stage.shaft_at(Point {
                        x: point.x + x,
                        y: point.y + y,
                    })
                })
                .into_iter();
            around
                .all(|other| other == Some(shaft))
                .then_some((point, shaft))
        })
        .context("no shaft anywhere")?;
    page.point_at((left + point.x * zoom, top + point.y * zoom))?;
    page.rest()?;
    let named: Option<String> = page.get("probe.text('.caption[data-lit] b')", Value::Null)?;
    let label = train.scenario().shafts[shaft].label.as_str();
    ensure!(
        named.as_deref() == Some(label),
        "at {point:?} {named:?}, not {label}"
    );
    Ok(true)
}

/// Catches a large screen of which a third stays blank, letters and drawings that stay as small as on a
/// laptop, or blurred, and places that are pointed at beside where they are shown.
#[test]
fn on_a_large_screen_all_grows_with_it() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        for (view, least) in LARGE {
            page.change_view(view)?;
            page.goto("index.html")?;
            for file in files::scenarios()? {
                page.turn_to(&file.stem)?;
                let [zoom, letters, room, filled, bottom, fineness]: [f64; 6] = page.get(
                    "(() => { \
                        const { width, bottom } = probe.one('canvas[data-drawing=lever]').getBoundingClientRect(); \
                        const stage = probe.one('[data-part=stage]'); \
                        return [Number(stage.dataset.zoom), \
                            parseFloat(getComputedStyle(probe.one('[data-part=members]')).fontSize) / 16, \
                            probe.one('.body').clientWidth / innerWidth, \
                            width / stage.clientWidth, bottom / innerHeight, \
                            probe.one('canvas[data-drawing=lever]').width / width]; \
                    })()",
                    Value::Null,
                )?;
                let what = format!("{} on {} px", file.stem, view.width);
                ensure!(letters >= least, "{what}: letters {letters}");
                // A wide train grows as far as it fits.
                ensure!(zoom >= least.min(1.3), "{what}: drawings {zoom}");
                ensure!(room > 0.95, "{what}: {room} of the width");
                ensure!(
                    (filled - 1.0).abs() < 0.01,
                    "{what}: {filled} of the column"
                );
                ensure!(bottom > 0.85, "{what}: ends at {bottom} of the height");
                ensure!(fineness > 0.99, "{what}: {fineness} pixels to one");
                let train = by_core::parse(&file.text)?;
                ensure!(
                    points_at_what_is_drawn(page, &train)?,
                    "{what}: another shaft is lit than the one pointed at"
                );
            }
            page.goto(&format!("index.html{}", by_hand::link(THIRD)))?;
            let pack = page.pack(&by_hand::train()?, "V")?;
            page.drag(Device::Mouse, &pack, -0.7)?;
            ensure!(page.seen()?.applied == ["J"], "no drag on {view:?}");
        }
        Ok(())
    })
}

/// Catches letters that shrink as the reader zooms in, since the window gets smaller: at one and a half,
/// all must be about one and a half times as large, at four times at least twice.
#[test]
fn zooming_in_enlarges_on_a_large_screen_too() -> Result<()> {
    let (large, _) = LARGE[1];
    page::open(large, &by_hand::link(FIRST), |page| {
        // The outside of a window knows no zoom.
        page.run(
            "Object.defineProperty(window, 'outerWidth', { value: innerWidth })",
            Value::Null,
        )?;
        let letters = |page: &Page| -> Result<f64> {
            page.get(
                "parseFloat(getComputedStyle(probe.one('[data-part=members]')).fontSize)",
                Value::Null,
            )
        };
        let usual = letters(page)?;
        let mut last = 1.0;
        for (zoom, least) in [(1.25, 1.2), (1.5, 1.4), (2.0, 1.4), (3.0, 1.8), (4.0, 2.0)] {
            page.change_view(View {
                width: (f64::from(large.width) / zoom) as u32,
                height: (f64::from(large.height) / zoom) as u32,
                density: zoom,
                ..large
            })?;
            let grown = letters(page)? * zoom / usual;
            ensure!(grown >= least, "{grown} times as large at {zoom}");
            ensure!(
                grown >= last - 0.02,
                "smaller at {zoom}: {grown} after {last}"
            );
            last = grown;
            let wide: f64 = page.get(
                "document.documentElement.scrollWidth - innerWidth",
                Value::Null,
            )?;
            ensure!(wide <= 0.0, "{wide} px too wide at {zoom}");
        }
        Ok(())
    })
}
