//! A brake that must hang within a carrier which is part of the housing.

use std::path::Path;

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Device, Key, Page, View, page};
use serde_json::Value;

/// Two sets with a common sun. Brake V holds the second carrier: then ring 2, the output, goes 24/78 backward. Clutch H
/// joins both rings, and the first carrier is part of the housing: then the output goes 30/70 backward.
const TRAIN: &str = "../web/src/draw/section/nested/brake_within.json";
const BRAKE: &str = "[role=switch][data-element-id=V]";
const CLUTCH: &str = "[role=switch][data-element-id=H]";

/// Opens the train, and waits until the brake lies below the clutch: outside it would hang above all.
fn open(view: View, test: impl FnOnce(&mut Page) -> Result<()>) -> Result<()> {
    // The browser takes no path that leads back.
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(TRAIN);
    let path = path.canonicalize()?;
    page::open(view, "", |page| {
        page.open_file(&path)?;
        page.until(
            "the brake lies within",
            &format!(
                "probe.one('{BRAKE}') && probe.one('[data-part=layout-caution]').hidden && \
                    probe.one('{BRAKE}').getBoundingClientRect().top > \
                    probe.one('{CLUTCH}').getBoundingClientRect().top"
            ),
        )?;
        page.rest()?;
        test(page)
    })
}

/// The middle of the brake's switch.
fn middle(page: &Page) -> Result<(f64, f64)> {
    let script = format!(
        "(() => {{ const node = probe.one('{BRAKE}'); \
            node.scrollIntoView({{ block: 'center', inline: 'center', behavior: 'instant' }}); \
            const {{ x, y, width, height }} = node.getBoundingClientRect(); \
            return [x + width / 2, y + height / 2]; }})()"
    );
    page.get(&script, Value::Null)
}

/// Catches a brake that is taken for one that closes upwards, one that is drawn elsewhere than it is held, and a drag that
/// changes the picture but not the train.
fn drag(page: &Page, device: Device) -> Result<()> {
    const FAR: f64 = 40.0;
    let held = page.seen()?;
    ensure!(held.applied == ["V"], "{held:?}");
    ensure!(held.exact.as_deref() == Some("\u{2212}13/4"), "{held:?}");
    let (x, y) = middle(page)?;
    let across = |way: f64| [0.0, 0.5, 1.0].map(|share| (x + share * way * FAR, y));
    page.gesture(device, &across(1.0))?;
    let open = page.seen()?;
    ensure!(open.applied.is_empty(), "{open:?}");
    ensure!(open.section != held.section && open.lever != held.lever);
    page.gesture(device, &[(x, y), (x, y - FAR)])?;
    ensure!(page.seen()?.applied.is_empty(), "it closes upwards");
    page.gesture(device, &across(-1.0))?;
    let again = page.seen()?;
    ensure!(again.applied == ["V"], "{again:?}");
    ensure!(again.exact == held.exact, "{again:?}");
    Ok(())
}

#[test]
fn a_mouse_drags_it_open_and_closed_and_keys_press_it() -> Result<()> {
    open(View::LAPTOP, |page| {
        drag(page, Device::Mouse)?;
        page.run(&format!("probe.one('{BRAKE}').focus()"), Value::Null)?;
        for applied in [&[][..], &["V".to_owned()]] {
            page.keys([Key::Space])?;
            let seen = page.seen()?;
            ensure!(seen.applied == applied, "{seen:?}");
        }
        page.check_faults()
    })
}

#[test]
fn a_finger_drags_it_open_and_closed() -> Result<()> {
    open(View::PHONE, |page| drag(page, Device::Touch))
}
