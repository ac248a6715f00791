//! Speed of the work plan, which the job sheet, the jig sheet and the drilling order read. The goal is under 1 ms.

use board::{
    Base, Board, Build, Coat, DrillingMethod, Filling, Grooves, PieceKind, Recess, Router,
    ScrewCircle, SectorJig, Tenons, Wood,
};
use divan::{Bencher, black_box};
use workshop::Workpiece;

fn main() {
    divan::main();
}

/// The plan of a board with every operation; its inputs are worked out beforehand.
#[divan::bench(args = DrillingMethod::ALL)]
fn plan_of_the_work(bencher: Bencher<'_, '_>, method: DrillingMethod) {
    let mut board = Board {
        method,
        grooves: Some(Grooves {
            rim: Some(5.0),
            ..Grooves::default()
        }),
        wood: Some(Wood::default()),
        base: Some(Base::default()),
        screws: vec![ScrewCircle::default()],
        recess: Some(Recess {
            lid: 4.0,
            ..Recess::default()
        }),
        filling: Some(Filling::default()),
        finish: vec![Coat::default(); 3],
        router: Some(Router::default()),
        sector_jig: Some(SectorJig::default()),
        ..Board::default()
    };
    board.piece.kind = PieceKind::Magnet;
    board.panel.build = Build::Strips { count: 4 };
    board.panel.tenons = Some(Tenons::default());
    bencher
        .with_inputs(|| {
            let workpiece = Workpiece::of(&board);
            if let Ok(workpiece) = &workpiece {
                let _ = (workpiece.tiling(), workpiece.pour(), workpiece.hole_table());
            }
            workpiece
        })
        .bench_local_refs(|workpiece| {
            let plan = black_box(workpiece).as_ref().map(Workpiece::work_plan);
            plan.map_or(0, |plan| plan.operations.len())
        });
}

/// The search for the shortest fix of a finish: plans with one fault, with three, and with a fault at every layer.
#[divan::bench(args = [2, 6, 12, 60])]
fn fix_of_the_finish(bencher: Bencher<'_, '_>, layers: usize) {
    use board::CoatKind::{Dye, Lacquer, Oil, OilPolyurethane, WaterPolyurethane, Wax};
    let kinds = [Wax, OilPolyurethane, Lacquer, Oil, Dye, WaterPolyurethane];
    let plan: Vec<Coat> = kinds
        .into_iter()
        .cycle()
        .take(layers)
        .map(|kind| Coat::of(kind, 1.0))
        .collect();
    bencher.bench_local(|| workshop::finish_fixes(black_box(&plan)).len());
}
