//! The page on the board file says what the program does: every member, its range, its default.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test that cannot go on has failed"
)]

use std::collections::BTreeMap;

use board::{Range, Wishes, propose, ranges, read_board, write_board};
use serde_json::Value;

const PAGE: &str = include_str!("../../../docs/formats/board-file.md");

/// A row of the page's table.
struct Row {
    /// Whether a file may leave the member out.
    optional: bool,
    range: &'static str,
    default: String,
}

/// The rows of the page's table, by their members.
fn rows() -> BTreeMap<String, Row> {
    let table = PAGE.lines().filter(|line| line.starts_with("| "));
    table
        .filter_map(|line| {
            let cells: Vec<&str> = line.trim_matches('|').split('|').map(str::trim).collect();
            let [member, purpose, range, default] = cells[..] else {
                return None;
            };
            let row = Row {
                optional: purpose.starts_with("+ "),
                range,
                default: plain(default),
            };
            Some((plain(member), row))
        })
        .collect()
}

fn plain(cell: &str) -> String {
    cell.replace('`', "")
}

/// The members of an object that hold no others, with their values; those of all bores under one name.
fn members(path: &str, value: &Value, found: &mut BTreeMap<String, String>) {
    if let Value::Object(object) = value {
        for (name, value) in object {
            let is_bore = matches!(path, "bores" | "center") && object_has(value, "bottom");
            let within = match path {
                _ if is_bore => "a bore:".into(),
                "" => name.clone(),
                "a bore:" => format!("a bore: {name}"),
                path => format!("{path}.{name}"),
            };
            members(&within, value, found);
        }
        return;
    }
    let said = said(value);
    if let Some(before) = found.insert(path.into(), said.clone()) {
        assert_eq!(before, said, "the bores of a new board differ");
    }
}

fn said(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        Value::Number(number) => number.as_f64().unwrap().to_string(),
        other => other.to_string(),
    }
}

fn object_has(value: &Value, member: &str) -> bool {
    value.get(member).is_some()
}

#[test]
fn every_member_of_a_new_board_is_on_the_page_with_its_default() {
    let text = write_board(&propose(&Wishes::default()).unwrap());
    let file: Value = serde_json::from_str(&text).unwrap();
    let mut found = BTreeMap::new();
    members("", &file["board"], &mut found);
    assert!(found.len() > 30, "{found:?}");
    let rows = rows();
    for (member, value) in found {
        let row = rows
            .get(&member)
            .unwrap_or_else(|| panic!("{member} is not on the page"));
        assert_eq!(row.default, value, "{member}");
    }
}

/// The files of the rich boards: every member of the document is in some.
fn rich() -> Vec<Value> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/fixtures/rich");
    let files = std::fs::read_dir(folder).unwrap();
    let read = |file: std::fs::DirEntry| std::fs::read(file.path()).unwrap();
    files
        .map(|file| serde_json::from_slice(&read(file.unwrap())).unwrap())
        .collect()
}

/// The places of all members within a value, each with its name on the page.
fn places(place: &str, name: &str, value: &Value, found: &mut Vec<(String, String)>) {
    let within = match name {
        "machine.bits" => "a bit:",
        "finish" => "a coat:",
        _ if object_has(value, "bottom") && object_has(value, "depth_mm") => "a bore:",
        _ if object_has(value, "humidity_percent") => "air:",
        _ => name,
    };
    if let Value::Object(object) = value {
        for (member, value) in object {
            let name = match within {
                "" => member.clone(),
                list if list.ends_with(':') => format!("{list} {member}"),
                object => format!("{object}.{member}"),
            };
            let place = format!("{place}/{member}");
            places(&place, &name, value, found);
            found.push((place, name));
        }
    } else if let Value::Array(items) = value {
        for (at, item) in items.iter().enumerate() {
            places(&format!("{place}/{at}"), within, item, found);
        }
    }
}

#[test]
fn a_member_may_be_missing_only_where_the_page_says_so_and_then_has_its_default() {
    let rows = rows();
    let mut missed = 0;
    for file in rich() {
        let mut found = Vec::new();
        places("/board", "", &file["board"], &mut found);
        for (place, name) in found {
            let mut without = file.clone();
            let (object, member) = place.rsplit_once('/').unwrap();
            let object = without.pointer_mut(object).unwrap();
            object.as_object_mut().unwrap().remove(member).unwrap();
            let read = read_board(without.to_string().as_bytes());
            let row = rows.get(&name).filter(|row| row.optional);
            assert_eq!(read.is_ok(), row.is_some(), "{place}, {name}: {read:?}");
            let (Ok(board), Some(row)) = (read, row) else {
                continue;
            };
            let file: Value = serde_json::from_str(&write_board(&board)).unwrap();
            let value = file.pointer(&place).unwrap();
            if !matches!(row.default.as_str(), "none" | "") && !value.is_object() {
                assert_eq!(said(value), row.default, "{place}");
            }
            missed += 1;
        }
    }
    assert!(missed > 300, "{missed}");
}

#[test]
fn every_word_on_the_page_is_in_some_rich_board() {
    let mut known: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for file in rich() {
        let mut found = Vec::new();
        places("/board", "", &file["board"], &mut found);
        for (place, name) in found {
            let value = file.pointer(&place).unwrap();
            known.entry(name).or_default().push(said(value));
        }
    }
    for (member, row) in rows() {
        let words = row.range.split('`').skip(1).step_by(2);
        for word in words {
            let values = known.get(&member);
            assert!(
                values.is_some_and(|values| values.iter().any(|value| value == word)),
                "{member} is never {word}"
            );
        }
    }
}

const AS_ON_PAGE: &[(&str, Range)] = &[
    ("players", ranges::PLAYERS),
    ("pattern.depth", ranges::LOBE_DEPTH),
    ("pattern.across", ranges::ACROSS),
    ("spaces", ranges::SPACES),
    ("home", ranges::HOME),
    ("start", ranges::START),
    ("pitch_mm", ranges::PITCH),
    ("rotation_deg", ranges::ROTATION),
    ("pocket.bearing_deg", ranges::POCKET_BEARING),
    ("pocket.radius_mm", ranges::POCKET_RADIUS),
    ("center.diameter_mm", ranges::PILOT),
    ("center.depth_mm", ranges::BORE_DEPTH),
    ("center.pilot_mm", ranges::PILOT),
    ("a bore: diameter_mm", ranges::BORE_DIAMETER),
    ("a bore: depth_mm", ranges::BORE_DEPTH),
    ("piece.diameter_mm", ranges::PIECE),
    ("blank.diameter_mm", ranges::BOARD),
    ("blank.thickness_mm", ranges::THICKNESS),
    ("blank.roundover_mm", ranges::ROUNDOVER),
    ("jig.pin_mm", ranges::PIN),
    ("limits.web_mm", ranges::LIMIT),
    ("limits.rim_mm", ranges::LIMIT),
    ("limits.piece_gap_mm", ranges::LIMIT),
    ("limits.pin_play_mm", ranges::LIMIT),
    ("bores.spur_mm", ranges::SPUR),
    ("piece.height_mm", ranges::PIECE_HEIGHT),
    ("piece.shank_mm", ranges::SHANK),
    ("piece.youngest", ranges::YOUNGEST),
    ("stock.outline.length_mm", ranges::STOCK_SIDE),
    ("stock.outline.width_mm", ranges::STOCK_SIDE),
    ("stock.thickness_mm", ranges::THICKNESS),
    ("stock.place_mm", ranges::STOCK_PLACE),
    ("stock.trim_mm", ranges::ALLOWANCE),
    ("panel.build.count", ranges::STRIPS),
    ("panel.joint_mm", ranges::ALLOWANCE),
    ("panel.kerf_mm", ranges::ALLOWANCE),
    ("panel.planer_mm", ranges::PLANER),
    ("recess.shape.diameter_mm", ranges::RECESS),
    ("recess.shape.length_mm", ranges::RECESS),
    ("recess.shape.width_mm", ranges::RECESS),
    ("recess.at_mm", ranges::RECESS_PLACE),
    ("recess.depth_mm", ranges::RECESS_DEPTH),
    ("recess.lid_mm", ranges::LID),
    ("recess.spare", ranges::SPARE),
    ("recess.lid_fit.overlap_mm", ranges::OVERLAP_OF_LID),
    ("recess.lid_fit.clearance_mm", ranges::LID_CLEARANCE),
    ("recess.lid_fit.hold.angle_deg", ranges::DOVETAIL),
    ("piece.mass_g", ranges::PIECE_MASS),
    ("piece.density_g_cm3", ranges::DENSITY),
    ("piece.insert.thickness_mm", ranges::DISC),
    ("piece.magnet.pull_n", ranges::PULL),
    ("piece.magnet.friction", ranges::FRICTION),
    ("piece.magnet.diameter_mm", ranges::MAGNET),
    ("piece.magnet.thickness_mm", ranges::MAGNET),
    ("piece.magnet.set_back_mm", ranges::MAGNET_GAP),
    ("piece.magnet.finish_mm", ranges::MAGNET_GAP),
    ("wood.species", ranges::SPECIES),
    ("wood.moisture_percent", ranges::MOISTURE),
    ("wood.change", ranges::WOOD_CHANGE),
    ("wood.density_kg_m3", ranges::WOOD_DENSITY),
    ("air: temperature_c", ranges::TEMPERATURE),
    ("air: humidity_percent", ranges::HUMIDITY),
    ("base.footing.diameter_mm", ranges::FOOTING),
    ("base.footing.count", ranges::FEET),
    ("base.footing.circle_mm", ranges::FOOTING),
    ("base.height_mm", ranges::BASE_HEIGHT),
    ("base.rating_kg", ranges::LOAD),
    ("base.load_kg", ranges::LOAD),
    ("base.board_kg", ranges::LOAD),
    ("limits.tip_n", ranges::TIP),
    ("limits.spin_rpm", ranges::SPIN),
    ("filling.below_top_mm", ranges::FILL_BELOW),
    ("filling.dome_mm", ranges::DOME),
    ("filling.waste", ranges::WASTE),
    ("filling.cup_ml", ranges::CUP),
    ("filling.batch_ml", ranges::BATCH),
    ("filling.mix.resin", ranges::PARTS),
    ("filling.mix.hardener", ranges::PARTS),
    ("filling.mix.density_g_ml", ranges::RESIN_DENSITY),
    ("filling.boards", ranges::FILLED_BOARDS),
    ("filling.pot_life_min", ranges::POT_LIFE),
    ("filling.pot_life_at_c", ranges::TEMPERATURE),
    ("filling.shop_c", ranges::TEMPERATURE),
    ("filling.mixing_min", ranges::MIXING),
    ("filling.ten_bores_s", ranges::TEN_BORES),
    ("a coat: dries_h", ranges::DRIES),
    ("limits.floor_mm", ranges::LIMIT),
    ("limits.inside_mm", ranges::LIMIT),
    ("limits.seam_mm", ranges::LIMIT),
    ("limits.piece_play_mm", ranges::LIMIT),
    ("limits.seat_least", ranges::SEAT),
    ("limits.seat_most", ranges::SEAT),
    ("limits.template_web_mm", ranges::LIMIT),
    ("limits.risk", ranges::RISK),
    ("errors.print", ranges::PRINT_ERROR),
    ("errors.tape_mm", ranges::ERROR),
    ("errors.punch_mm", ranges::ERROR),
    ("errors.drill_mm", ranges::ERROR),
    ("errors.oversize_mm", ranges::ERROR),
    ("errors.index_deg", ranges::INDEX_ERROR),
    ("limits.sheets", ranges::SHEETS),
    ("template.paper.custom.width_mm", ranges::PAPER),
    ("template.margin_mm", ranges::MARGIN),
    ("template.overlap_mm", ranges::OVERLAP),
    ("template.roll_mm", ranges::ROLL),
    ("jig.kerf_mm", ranges::KERF),
    ("router.bushing_mm", ranges::BUSHING),
    ("router.bit_mm", ranges::BIT),
    ("router.reach_mm", ranges::BUSHING_REACH),
    ("router.hardboard_mm", ranges::HARDBOARD),
    ("sector_jig.pins", ranges::INDEX_PINS),
    ("sector_jig.play_mm", ranges::PIN_PLAY),
    ("machine.clearance_mm", ranges::BIT_HEIGHT),
    ("machine.retract_mm", ranges::BIT_HEIGHT),
    ("machine.through_mm", ranges::THROUGH),
    ("machine.spin_up_s", ranges::WAIT),
    ("a bit: diameter_mm", ranges::BORE_DIAMETER),
    ("a bit: speed_rpm", ranges::SPEED),
    ("a bit: feed_mm_min", ranges::FEED),
    ("a bit: peck_mm", ranges::PASS),
    ("a bit: dwell_s", ranges::WAIT),
    ("machine.edge.cutter_mm", ranges::BIT),
    ("machine.edge.speed_rpm", ranges::SPEED),
    ("machine.edge.feed_mm_min", ranges::FEED),
    ("machine.edge.plunge_mm_min", ranges::FEED),
    ("machine.edge.pass_mm", ranges::PASS),
    ("machine.edge.skin_mm", ranges::SKIN),
    ("machine.groove.speed_rpm", ranges::SPEED),
    ("machine.groove.feed_mm_min", ranges::FEED),
    ("machine.groove.plunge_mm_min", ranges::FEED),
    ("grooves.width_mm", ranges::GROOVE_WIDTH),
    ("grooves.angle_deg", ranges::V_ANGLE),
    ("grooves.tip_mm", ranges::V_TIP),
    ("grooves.pass_mm", ranges::PASS),
    ("grooves.stop_mm", ranges::BESIDE_GROOVE),
    ("grooves.around_home_mm", ranges::BESIDE_GROOVE),
    ("grooves.around_start_mm", ranges::BESIDE_GROOVE),
    ("grooves.rings.gap_mm", ranges::BESIDE_GROOVE),
    ("grooves.sectors_from_mm", ranges::SECTORS_FROM),
    ("grooves.rim_mm", ranges::BESIDE_GROOVE),
];

#[test]
fn every_range_is_on_the_page_as_the_program_has_it() {
    let rows = rows();
    for &(member, range) in AS_ON_PAGE {
        let said = rows.get(member).map(|row| row.range);
        let wanted = format!("{} to {}", range.min, range.max);
        assert_eq!(said, Some(wanted.as_str()), "{member}");
    }
    let offset = format!("may be {} to {}", ranges::OFFSET.min, ranges::OFFSET.max);
    assert!(PAGE.contains(&offset));
}
