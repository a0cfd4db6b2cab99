//! What was seen, and what follows: verdicts from evidence, the look list, and the laws of both.

use joistwise_core::draft::draft;
use joistwise_core::plan::{Grade, Joints, Plan, Saw, Way};
use joistwise_core::readings::{Certainty, Judgement, judge};

fn show(plan: &Plan, all: &Judgement) {
    for it in &all.stretches {
        let wall = plan.wall(it.wall).map(|it| it.1.name.clone()).unwrap_or_default();
        println!(
            "{wall} {:.2}..{:.2} {:?} {:?} hangs on {:?}",
            it.start.0, it.end.0, it.certainty, it.roles, it.hangs_on
        );
    }
    println!("{:?}\n{:?}\n{:?}", all.levels, all.contradictions, all.ruled_out);
    for look in &all.looks {
        println!(
            "  look {:?} {:?} at {:.1},{:.1} settles {:.3} narrows {:.3}",
            look.how,
            look.wall,
            look.at.x.feet().0,
            look.at.y.feet().0,
            look.settles,
            look.narrows
        );
        for it in &look.outcomes {
            println!(
                "     {:.3} {:?} settles {} writes {:?}",
                it.share,
                it.answers.iter().map(|it| it.1).collect::<Vec<_>>(),
                it.settles,
                it.seen.iter().map(|it| it.0).collect::<Vec<_>>()
            );
        }
    }
}

#[test]
fn nothing_seen() {
    let plan = draft().outside(40, 26).inside("W1", (6, 13), (34, 13)).inside("W2", (20, 0), (20, 13)).done();
    show(&plan, &judge(&plan));
    let plan = draft()
        .outside(40, 26)
        .inside("W1", (6, 13), (34, 13))
        .inside("W2", (20, 0), (20, 13))
        .joists(Way::Y, Joints::NotSeen)
        .with(|level| level.fields.iter_mut().for_each(|it| it.known = Grade::Assumed))
        .done();
    show(&plan, &judge(&plan));
    let _ = (Certainty::Certain, Saw::JoistsLap);
}
