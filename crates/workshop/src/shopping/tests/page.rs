//! The documentation page of the lists compared with the lists.

use super::*;

/// A lid that slides.
fn sliding() -> LidFit {
    LidFit {
        hold: board::LidHold::Slides {
            angle: 14.0,
            toward: board::Toward::Left,
        },
        ..LidFit::default()
    }
}

/// A board with wood enough for the peg of a sliding lid.
fn with_sliding_lid() -> Board {
    Board {
        recess: Some(Recess {
            lid: 4.0,
            lid_fit: sliding(),
            ..Recess::default()
        }),
        ..Board::default()
    }
}

/// Boards that together need every kind of row.
fn of_every_kind() -> Vec<Board> {
    let colored = [Medium::Paint, Medium::Dye, Medium::Stain, Medium::Inlay].map(grooved);
    let mut boards = vec![
        rich(Units::Mm),
        rich(Units::INCH),
        Board::default(),
        strips(),
    ];
    boards.extend(colored);
    let mut ringed = Board::default();
    ringed.colors.track.hue = Hue::Player;
    ringed.colors.track.on = board::BorePart::Ring;
    boards.push(ringed);
    boards.push(with_sliding_lid());
    let mut board = Board {
        base: Some(Base {
            footing: Footing::Feet {
                count: 3,
                circle: 300.0,
            },
            ..Base::default()
        }),
        recess: Some(Recess {
            lid: 4.0,
            lid_fit: sliding(),
            ..Recess::default()
        }),
        sector_jig: Some(board::SectorJig::default()),
        method: board::DrillingMethod::SectorJig,
        ..Board::default()
    };
    board.blank.roundover = 3.0;
    board.piece.kind = PieceKind::Peg;
    board.panel.build = Build::Seams { at: vec![0.0] };
    board.bores.home.bottom = board::Bottom::Point135;
    board.bores.start.bottom = board::Bottom::Ball;
    boards.push(board.clone());
    board.panel.build = Build::Halves;
    board.piece.kind = PieceKind::Magnet;
    board.piece.insert = board::Insert::Disc { thickness: 2.0 };
    board.base = Some(Base {
        hold: BaseHold::GluedWithGrain,
        ..Base::default()
    });
    boards.push(board.clone());
    boards.extend(on_slab(board));
    boards
}

/// A board on a measured slab: in one piece, and of strips under a finish that is brushed on.
fn on_slab(mut board: Board) -> [Board; 2] {
    board.panel.build = Build::Whole;
    board.stock.outline = StockOutline::Slab {
        length: 650.0,
        width: 650.0,
        lower: Vec::new(),
        upper: Vec::new(),
    };
    let mut strips = board.clone();
    strips.panel.build = Build::Strips { count: 3 };
    strips.finish = vec![board::Coat::of(board::CoatKind::OilPolyurethane, 24.0)];
    [board, strips]
}

/// The page names every kind of row and of part, and none that never occurs.
#[test]
fn the_page_of_the_lists_has_every_row_and_no_others() {
    let page = include_str!("../../../../../docs/formats/lists.md");
    let between = |begin: &str, end: &str| {
        let below = page.split(begin).nth(1).unwrap();
        below.split(end).next().unwrap().to_owned()
    };
    let ticked = |cell: &str| -> Vec<String> {
        cell.split('`')
            .skip(1)
            .step_by(2)
            .map(String::from)
            .collect()
    };
    let rows = between("### Rows", "\n## ");
    let kinds = rows
        .lines()
        .filter_map(|row| row.strip_prefix("| `")?.split('|').next());
    let kinds: Vec<String> = kinds.flat_map(|cell| ticked(&format!("`{cell}"))).collect();
    let names = ticked(&between("| `part` |", "\n"));
    let (mut articles, mut parts) = (Vec::new(), Vec::new());
    for board in of_every_kind() {
        let workpiece = Workpiece::of(&board).unwrap();
        articles.extend(shopping(&workpiece, 1).into_iter().map(|line| line.article));
        parts.extend(cut_list(&workpiece, 1).into_iter().map(|part| part.name));
    }
    for article in &articles {
        assert!(
            kinds.iter().any(|kind| article.starts_with(kind)),
            "{article}"
        );
    }
    for kind in &kinds {
        assert!(
            articles.iter().any(|article| article.starts_with(kind)),
            "{kind}"
        );
    }
    for name in &parts {
        assert!(names.iter().any(|known| known == name), "{name}");
    }
    for name in &names {
        assert!(parts.contains(&name.as_str()), "{name}");
    }
}
