using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Pack;

namespace Portwitness.Product.Rules.Parts;

/// <summary>At full output or input a cell carries more than its data sheet allows.</summary>
public sealed class CellCurrentBeyondLimit : PackRule
{
    // With every loss left out, and with the usual ones.
    private const int NoLossPpm = 1_000_000;
    private const int UsualPpm = 920_000;

    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "cell-current-beyond-limit",
        Severity = Severity.Mismatch,
        Title = "The cells cannot carry the current that the printed power takes",
        Clause = "common practice, no source: the limit is the stated one, losses are a default",
        Why = "Power is voltage times current: what ports give, the cells carry. Beyond their limit cells heat up, age in months and may fail.",
        Evidence = "\"max_discharge_a:\" or \"max_charge_a:\" with \"full_v:\" and \"empty_v:\" of a cell, and the printed or offered power.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "65 W of two cells in series at 4.2 V each are 7.7 A; 6 A are allowed.",
            Members: "label: \"USB-C 65W Max\"\nbattery: {cells: {series: 2, capacity_mah: 5000, nominal_v: 3.6, full_v: 4.2, empty_v: 3.0, max_discharge_a: 6}}"),
        Category = RuleCategory.Parts,
    };

    /// <inheritdoc/>
    public override void Check(PackFigures pack, IProductHitSink hits)
    {
        if (pack is { LargestOutput: { } output, Build: { MaxDischargeMilliamperes: { } most, FullMillivolts: { } full } }
            && pack.CurrentOfCell(output.Power, full, NoLossPpm, false) is var least && least > most)
        {
            // Full cells and no loss: at no time is it less.
            Report(hits, Verdict.Fails, $"{output.Power} ({output.Basis}) draw at least {Amperes(least)} of each cell, full and without a loss", most, least, output.Line);
        }
        else if (pack is { LargestOutput: { } asked, Build: { MaxDischargeMilliamperes: { } limit, EmptyMillivolts: { } empty } }
            && pack.CurrentOfCell(asked.Power, empty, UsualPpm, false) is var worst && worst > limit)
        {
            Report(hits, Verdict.CannotTell, $"{asked.Power} ({asked.Basis}) would draw {Amperes(worst)} of each cell when they are nearly empty", limit, worst, asked.Line);
        }

        // What charges the cells may hold it back.
        if (pack is { LargestInput: { } input, Build: { MaxChargeMilliamperes: { } allowed, EmptyMillivolts: { } low } }
            && pack.CurrentOfCell(input, low, UsualPpm, true) is var charge && charge > allowed)
        {
            Report(hits, Verdict.CannotTell, $"{input} of input would charge each cell with {Amperes(charge)} when they are nearly empty", allowed, charge, null);
        }
    }

    private static Phrase Amperes(int milliamperes) => $"{Current.FromMilliamperes(milliamperes)}";

    private void Report(IProductHitSink hits, Verdict verdict, Phrase what, int limit, int seen, int? line) => hits.Report(
        this,
        new Hit(verdict, what + Phrase.Of($"; its data sheet is stated with {Amperes(limit)}."))
        {
            LabelLine = line,
            Expected = Phrase.Of($"at most {Amperes(limit)} a cell"),
            Observed = Amperes(seen),
            NextStep = verdict == Verdict.Fails ? null
                : "Log the pack's power over a whole discharge, or a whole charge: it shows whether it is held back while the cells are low.",
        },
        Place);
}
