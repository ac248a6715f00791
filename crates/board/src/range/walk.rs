//! A whole document held against its ranges.

use super::{OutOfRange, Range, ranges};
use crate::{Board, Build, FlawShape, Footing, Insert, LidHold, Piece, RecessShape, StockOutline};

/// Every number of the document that is out of its range, in the order of the document.
pub fn out_of_range(board: &Board) -> Vec<OutOfRange> {
    let mut found = Vec::new();
    let mut check = |range: Range, value: f64| found.extend(range.check(value).err());
    pattern_numbers(board, &mut check);
    wood_numbers(board, &mut check);
    groove_numbers(board, &mut check);
    stock_numbers(board, &mut check);
    panel_numbers(board, &mut check);
    season_numbers(board, &mut check);
    base_numbers(board, &mut check);
    bench_numbers(board, &mut check);
    limit_numbers(board, &mut check);
    template_numbers(board, &mut check);
    jig_numbers(board, &mut check);
    machine_numbers(board, &mut check);
    edit_numbers(board, &mut check);
    found
}

fn pattern_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    check(ranges::TITLE, board.title.chars().count() as f64);
    check(ranges::PLAYERS, f64::from(board.players));
    check(ranges::SPACES, f64::from(board.spaces));
    check(ranges::HOME, f64::from(board.home));
    check(ranges::START, f64::from(board.start));
    match board.pattern {
        geometry::Pattern::Lobes { depth } => check(ranges::LOBE_DEPTH, depth),
        geometry::Pattern::Arms { across } => check(ranges::ACROSS, f64::from(across)),
        geometry::Pattern::Ring | geometry::Pattern::Polygon => {}
    }
    check(ranges::PITCH, board.pitch);
    check(ranges::ROTATION, board.rotation);
    board
        .pocket
        .bearing
        .into_iter()
        .for_each(|bearing| check(ranges::POCKET_BEARING, bearing));
    board
        .pocket
        .radius
        .into_iter()
        .for_each(|radius| check(ranges::POCKET_RADIUS, radius));
}

fn wood_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    let roles = [board.bores.track, board.bores.home, board.bores.start];
    for bore in roles.into_iter().chain(board.center.bore()) {
        bore_numbers(bore, check);
    }
    board
        .center
        .pilot()
        .into_iter()
        .for_each(|pilot| check(ranges::PILOT, pilot));
    check(ranges::SPUR, board.bores.spur);
    piece_numbers(&board.piece, check);
    check(ranges::BOARD, board.blank.diameter);
    check(ranges::THICKNESS, board.blank.thickness);
    check(ranges::ROUNDOVER, board.blank.roundover);
}

fn groove_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    let Some(grooves) = board.grooves else {
        return;
    };
    check(ranges::GROOVE_WIDTH, grooves.width);
    check(ranges::V_ANGLE, grooves.angle);
    check(ranges::V_TIP, grooves.tip);
    check(ranges::PASS, grooves.pass);
    let besides = [
        Some(grooves.stop),
        grooves.around_home,
        grooves.around_start,
        grooves.rings.map(|rings| rings.gap),
        grooves.rim,
    ];
    for beside in besides.into_iter().flatten() {
        check(ranges::BESIDE_GROOVE, beside);
    }
    if let Some(from) = grooves.sectors_from {
        check(ranges::SECTORS_FROM, from);
    }
}

fn piece_numbers(piece: &Piece, check: &mut impl FnMut(Range, f64)) {
    let mut perhaps = |range: Range, value: Option<f64>| {
        if let Some(value) = value {
            check(range, value);
        }
    };
    perhaps(ranges::PIECE, Some(piece.diameter));
    perhaps(ranges::PIECE_HEIGHT, Some(piece.height));
    perhaps(ranges::SHANK, piece.shank);
    perhaps(ranges::YOUNGEST, Some(f64::from(piece.youngest)));
    perhaps(ranges::PIECE_MASS, piece.mass);
    perhaps(ranges::DENSITY, piece.density);
    if let Insert::Disc { thickness } = piece.insert {
        check(ranges::DISC, thickness);
    }
    if let Some(magnet) = piece.magnet {
        check(ranges::PULL, magnet.pull);
        check(ranges::FRICTION, magnet.friction);
        check(ranges::MAGNET, magnet.diameter);
        check(ranges::MAGNET, magnet.thickness);
        check(ranges::MAGNET_GAP, magnet.set_back);
        check(ranges::MAGNET_GAP, magnet.finish);
    }
}

fn stock_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    let stock = &board.stock;
    match &stock.outline {
        StockOutline::Unknown => {}
        StockOutline::Slab {
            length,
            width,
            lower,
            upper,
        } => {
            check(ranges::STOCK_SIDE, *length);
            check(ranges::STOCK_SIDE, *width);
            for edge in [lower, upper] {
                check(ranges::CORNERS, edge.len() as f64);
                for inward in edge {
                    check(ranges::WANEY, *inward);
                }
            }
        }
        StockOutline::Corners { corners } => corner_numbers(corners, check),
    }
    check(ranges::THICKNESS, stock.thickness);
    check(ranges::FLAWS, stock.flaws.len() as f64);
    for flaw in &stock.flaws {
        match &flaw.shape {
            FlawShape::Round { x, y, diameter } => {
                place_numbers([*x, *y], check);
                check(ranges::FLAW, *diameter);
            }
            FlawShape::Area { corners } => corner_numbers(corners, check),
        }
    }
    stock
        .place
        .into_iter()
        .for_each(|place| place_numbers(place, check));
    check(ranges::ALLOWANCE, stock.trim);
}

fn corner_numbers(corners: &[[f64; 2]], check: &mut impl FnMut(Range, f64)) {
    check(ranges::CORNERS, corners.len() as f64);
    for corner in corners {
        place_numbers(*corner, check);
    }
}

fn place_numbers(place: [f64; 2], check: &mut impl FnMut(Range, f64)) {
    for coordinate in place {
        check(ranges::STOCK_PLACE, coordinate);
    }
}

fn panel_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    let panel = &board.panel;
    match &panel.build {
        Build::Whole | Build::Halves => {}
        Build::Strips { count } => check(ranges::STRIPS, f64::from(*count)),
        Build::Seams { at } => {
            check(ranges::SEAMS, at.len() as f64);
            for seam in at {
                check(ranges::SEAM, *seam);
            }
        }
    }
    check(ranges::ALLOWANCE, panel.joint);
    check(ranges::ALLOWANCE, panel.kerf);
    check(ranges::PLANER, panel.planer);
    if let Some(tenons) = panel.tenons {
        check(ranges::TENONS, f64::from(tenons.count));
        let sizes = [
            tenons.spacing,
            tenons.length,
            tenons.reach,
            tenons.thickness,
        ];
        for size in sizes {
            check(ranges::TENON, size);
        }
        check(ranges::BELOW_TOP, tenons.below_top);
    }
    check(ranges::SCREW_CIRCLES, board.screws.len() as f64);
    for screws in &board.screws {
        check(ranges::SCREWS, f64::from(screws.count));
        check(ranges::SCREW_CIRCLE, screws.circle);
        check(ranges::SCREW_BEARING, screws.bearing);
        check(ranges::SCREW, screws.diameter);
        check(ranges::SCREW_DEPTH, screws.depth);
    }
}

fn season_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    let Some(wood) = &board.wood else {
        return;
    };
    check(ranges::SPECIES, wood.species.chars().count() as f64);
    for (range, value) in [
        (ranges::MOISTURE, wood.moisture),
        (ranges::WOOD_CHANGE, wood.change),
        (ranges::WOOD_DENSITY, wood.density),
    ] {
        if let Some(value) = value {
            check(range, value);
        }
    }
    for air in [wood.shop, wood.dry, wood.humid] {
        check(ranges::TEMPERATURE, air.temperature);
        check(ranges::HUMIDITY, air.humidity);
    }
}

fn base_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    let Some(base) = board.base else {
        return;
    };
    match base.footing {
        Footing::Round { diameter } => check(ranges::FOOTING, diameter),
        Footing::Feet { count, circle } => {
            check(ranges::FEET, f64::from(count));
            check(ranges::FOOTING, circle);
        }
    }
    check(ranges::BASE_HEIGHT, base.height);
    check(ranges::LOAD, base.load);
    for load in [base.rating, base.board].into_iter().flatten() {
        check(ranges::LOAD, load);
    }
}

fn bench_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    if let Some(recess) = &board.recess {
        match recess.shape {
            RecessShape::Round { diameter } => check(ranges::RECESS, diameter),
            RecessShape::Straight {
                length,
                width,
                corner,
            } => {
                check(ranges::RECESS, length);
                check(ranges::RECESS, width);
                check(ranges::RECESS_CORNER, corner);
            }
        }
        for coordinate in recess.at {
            check(ranges::RECESS_PLACE, coordinate);
        }
        check(ranges::RECESS_DEPTH, recess.depth);
        check(ranges::LID, recess.lid);
        check(ranges::SPARE, f64::from(recess.spare));
        check(ranges::OVERLAP_OF_LID, recess.lid_fit.overlap);
        check(ranges::LID_CLEARANCE, recess.lid_fit.clearance);
        if let LidHold::Slides { angle, .. } = recess.lid_fit.hold {
            check(ranges::DOVETAIL, angle);
        }
    }
    if let Some(filling) = &board.filling {
        check(ranges::FILL_BELOW, filling.below_top);
        check(ranges::DOME, filling.dome);
        check(ranges::WASTE, filling.waste);
        check(ranges::CUP, filling.cup);
        check(ranges::BATCH, filling.batch);
        check(ranges::PARTS, filling.mix.resin);
        check(ranges::PARTS, filling.mix.hardener);
        check(ranges::RESIN_DENSITY, filling.mix.density);
        check(ranges::FILLED_BOARDS, f64::from(filling.boards));
        check(ranges::POT_LIFE, filling.pot_life);
        check(ranges::TEMPERATURE, filling.pot_life_at);
        check(ranges::TEMPERATURE, filling.shop);
        check(ranges::MIXING, filling.mixing);
        check(ranges::TEN_BORES, filling.ten_bores);
    }
    check(ranges::COATS, board.finish.len() as f64);
    for coat in &board.finish {
        check(ranges::DRIES, coat.dries);
    }
}

fn limit_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    let limits = &board.limits;
    for limit in [
        limits.web,
        limits.rim,
        limits.floor,
        limits.inside,
        limits.seam,
        limits.piece_gap,
        limits.piece_play,
        limits.pin_play,
        limits.template_web,
    ] {
        check(ranges::LIMIT, limit);
    }
    check(ranges::SEAT, limits.seat_least);
    check(ranges::SEAT, limits.seat_most);
    check(ranges::SHEETS, f64::from(limits.sheets));
    check(ranges::RISK, limits.risk);
    check(ranges::TIP, limits.tip);
    check(ranges::SPIN, limits.spin);
    let errors = &board.errors;
    check(ranges::PRINT_ERROR, errors.print);
    for error in [errors.tape, errors.punch, errors.drill, errors.oversize] {
        check(ranges::ERROR, error);
    }
    check(ranges::INDEX_ERROR, errors.index);
}

fn bore_numbers(bore: crate::Bore, check: &mut impl FnMut(Range, f64)) {
    check(ranges::BORE_DIAMETER, bore.diameter);
    check(ranges::BORE_DEPTH, bore.depth);
}

fn template_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    if let crate::Paper::Custom { width, height } = board.template.paper {
        check(ranges::PAPER, width);
        check(ranges::PAPER, height);
    }
    check(ranges::MARGIN, board.template.margin);
    check(ranges::OVERLAP, board.template.overlap);
    if let Some(roll) = board.template.roll {
        check(ranges::ROLL, roll);
    }
}

fn jig_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    let jig = &board.jig;
    check(ranges::PIN, jig.pin);
    check(ranges::KERF, jig.kerf);
    check(ranges::PLATES, jig.plates.len() as f64);
    for divisions in &jig.plates {
        check(ranges::DIVISIONS, f64::from(*divisions));
    }
    if let Some(router) = board.router {
        check(ranges::BUSHING, router.bushing);
        check(ranges::BIT, router.bit);
        check(ranges::BUSHING_REACH, router.reach);
        check(ranges::HARDBOARD, router.hardboard);
    }
    if let Some(jig) = board.sector_jig {
        check(ranges::INDEX_PINS, f64::from(jig.pins));
        check(ranges::PIN_PLAY, jig.play);
    }
}

fn machine_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    let Some(machine) = &board.machine else {
        return;
    };
    let mut perhaps = |range: Range, value: Option<f64>| {
        if let Some(value) = value {
            check(range, value);
        }
    };
    perhaps(ranges::BIT_HEIGHT, Some(machine.clearance));
    perhaps(ranges::BIT_HEIGHT, Some(machine.retract));
    perhaps(ranges::THROUGH, machine.through);
    perhaps(ranges::WAIT, Some(machine.spin_up));
    perhaps(ranges::MACHINE_BITS, Some(machine.bits.len() as f64));
    for bit in &machine.bits {
        perhaps(ranges::BORE_DIAMETER, Some(bit.diameter));
        perhaps(ranges::SPEED, bit.speed);
        perhaps(ranges::FEED, bit.feed);
        perhaps(ranges::PASS, bit.peck);
        perhaps(ranges::WAIT, bit.dwell);
    }
    if let Some(edge) = machine.edge {
        perhaps(ranges::BIT, Some(edge.cutter));
        perhaps(ranges::SPEED, edge.speed);
        perhaps(ranges::FEED, edge.feed);
        perhaps(ranges::FEED, edge.plunge);
        perhaps(ranges::PASS, Some(edge.pass));
        perhaps(ranges::SKIN, Some(edge.skin));
    }
    if let Some(groove) = machine.groove {
        perhaps(ranges::SPEED, groove.speed);
        perhaps(ranges::FEED, groove.feed);
        perhaps(ranges::FEED, groove.plunge);
    }
}

fn offsets(offsets: [f64; 2], check: &mut impl FnMut(Range, f64)) {
    for offset in offsets {
        check(ranges::OFFSET, offset);
    }
}

fn edit_numbers(board: &Board, check: &mut impl FnMut(Range, f64)) {
    for edit in &board.edits {
        if edit.hole != crate::HoleId::CENTER {
            check(ranges::HOLE_NUMBER, f64::from(edit.hole.number()));
        }
        match edit.change {
            crate::Change::Move { u, v } => offsets([u, v], check),
            crate::Change::Add { u, v, bore } => {
                offsets([u, v], check);
                bore_numbers(bore, check);
            }
            crate::Change::Bore { bore } => bore_numbers(bore, check),
            crate::Change::Drop => {}
        }
    }
}
