using System.Collections.Immutable;
using System.Globalization;
using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Energy;
using Portwitness.Product.Offers;
using Portwitness.Product.Pack;
using Portwitness.Product.Printed;

namespace Portwitness.Product.Claims;

/// <summary>What claims are held against: measurements, what the cells hold, a scale and a ruler, the label, and arithmetic.</summary>
/// <param name="Energy">Cells and logs.</param>
/// <param name="Build">How the pack is built; null when nothing is stated of it.</param>
/// <param name="Label">The label; null when none is given.</param>
/// <param name="Offers">What ports offer.</param>
internal sealed record ClaimEvidence(ProductEnergy Energy, PackBuild? Build, Label? Label, IReadOnlyList<PortOffer> Offers)
{
    // Of a converter between cells and ports, and from the ports to a device's battery: usual, no standard.
    private const int OutPpm = 880_000;
    private const int ToDevicePpm = 800_000;
    private const int ToDeviceMostPpm = 900_000;
    private const decimal UsualSlack = 1.15m;

    // In millionths of a mass, and of a side: common practice, no source.
    private const int MassSlackPpm = 50_000;
    private const int SideSlackPpm = 20_000;
    private const int SideSlackHundredths = 100;

    private static readonly Phrase StateCells = "State the cells under \"battery:\", with \"capacity_mah:\" and \"nominal_v:\".";

    /// <summary>A claim held against all that.</summary>
    public JudgedClaim Judge(ProductClaim claim) => claim.Kind switch
    {
        ClaimKind.Time when claim.Output is { } output => RunTime(claim, output),
        ClaimKind.Time => ChargeTime(claim),
        ClaimKind.Fills => Fills(claim),
        ClaimKind.Mass => Mass(claim),
        ClaimKind.Size => Size(claim),
        _ => OfPower(claim),
    };

    private JudgedClaim ChargeTime(ProductClaim claim)
    {
        if (Energy.Cells is not { } cells)
        {
            return Open(claim, "nobody says what the cells hold", StateCells);
        }

        if ((claim.Input ?? InputTogether()) is not { Milliwatts: > 0 } input)
        {
            return Open(
                claim, "nobody says with which power it is charged",
                "State \"input:\" of the claim, or write what is printed for the input under \"label:\".");
        }

        // µWh / mW is 10⁻³ h, which is 3.6 s.
        Int128 share = (Int128)cells.MicrowattHours * claim.SharePpm / 1_000_000;
        long least = (long)Int128.Min(long.MaxValue, share * 3_600_000 / input.Milliwatts);
        Phrase reckoned = Phrase.Of($"{PrintedPowers.WattHours((long)(share / 1000))} take at least {EnergyText.Time(least)} at {input}, without any loss");
        bool mayTakeMore = claim.Input is null && Label is { HasUnreadRating: true };
        if (claim.TimeUs < least && mayTakeMore)
        {
            return Open(
                claim, reckoned + "; a line of the label that was not read may be an input, too",
                "Say what the unread lines of the label mean, under \"label_corrections:\".");
        }

        if (claim.TimeUs < least)
        {
            return Impossible(claim, reckoned, cells.LabelLine, Phrase.Of($"at least {EnergyText.Time(least)}"));
        }

        MeasuredLog[] whole = [.. Energy.Logs.Where(log => log is { Log.Kind: LogKind.Charge, UnitsAssumed: false } && log.Energy.Least >= share)];
        if (whole.Length > 0 && whole.MinBy(static log => log.EndUs) is { } fastest)
        {
            Phrase measured = Phrase.Of($"{fastest.Log.File}: that energy went in within {EnergyText.Time(fastest.EndUs)}");
            return fastest.EndUs <= claim.TimeUs!.Value * UsualSlack
                ? new JudgedClaim(claim, Verdict.Holds, measured, Phrase.Empty)
                : Open(claim, measured, "Log a charge with the largest input that is printed, from empty to full.");
        }

        return Open(claim, reckoned, "Log a charge from empty to full with the largest input that is printed.");
    }

    // A pack may be charged through several ports at once: of each the most that is printed; null where nothing is.
    private Power? InputTogether()
    {
        (string Port, long Milliwatts)[] each =
        [
            .. (Label?.Inputs ?? []).Where(static input => !input.Alternating)
                .Select(static input => (input.Port ?? "", (input.Power ?? (input.Current is { } current ? input.MaximumVoltage * current : null))?.Milliwatts ?? 0L)),
            .. (Label?.InputMaxima ?? []).Select(static maximum => (maximum.Port ?? "", (long)maximum.Power.Milliwatts)),
        ];
        long sum = each.GroupBy(static one => PortNames.Key(one.Port)).Sum(static port => port.Max(static one => one.Milliwatts));
        return sum == 0 ? null : Power.FromMilliwatts((int)Math.Min(int.MaxValue, sum));
    }

    private JudgedClaim RunTime(ProductClaim claim, Power output)
    {
        if (Energy.Cells is not { } cells)
        {
            return Open(claim, "nobody says what the cells hold", StateCells);
        }

        // mW times µs is 10⁻⁹ J; a µWh has 3.6 million of them.
        Int128 needed = (Int128)output.Milliwatts * claim.TimeUs!.Value / 3_600_000;
        return Drawn(claim, needed, cells, Phrase.Of($"{output} for {EnergyText.Time(claim.TimeUs!.Value)} are {Hours(needed)}"), needed, needed);
    }

    private JudgedClaim Fills(ProductClaim claim)
    {
        if (Energy.Cells is not { } cells)
        {
            return Open(claim, "nobody says what the cells hold", StateCells);
        }

        int? device = claim.DeviceMilliwattHours ?? Build?.Fills.FirstOrDefault(one => one.Name == claim.Device)?.MilliwattHours;
        if (device is not { } each)
        {
            return Open(claim, "nobody says what the device's battery holds", "State \"device_wh:\" of the claim.");
        }

        Int128 needed = (Int128)claim.ThousandthsOfFills!.Value * each;
        return Drawn(
            claim, needed, cells, Phrase.Of($"{Times(claim.ThousandthsOfFills.Value)} times {PrintedPowers.WattHours(each)} are {Hours(needed)}"),
            needed * 1_000_000 / ToDevicePpm, needed * 1_000_000 / ToDeviceMostPpm);
    }

    // What arrives never is more than what the cells hold.
    private JudgedClaim Drawn(ProductClaim claim, Int128 arrives, CellEnergy cells, Phrase asked, Int128 surelyGiven, Int128 perhapsGiven)
    {
        Phrase held = Phrase.Of($"; the cells hold {Hours(cells.MicrowattHours)} ({cells.Basis})");
        if (arrives > cells.MicrowattHours)
        {
            return Impossible(claim, asked + held, cells.LabelLine, Phrase.Of($"at most {Hours(cells.MicrowattHours)}"));
        }

        MeasuredLog? most = Energy.Logs.Where(static log => log is { Log.Kind: LogKind.Discharge, UnitsAssumed: false }).MaxBy(static log => log.Energy.Value);
        if (most is not null && most.Energy.Least >= surelyGiven)
        {
            return new JudgedClaim(claim, Verdict.Holds, asked + Phrase.Of($"; {most.Log.File} shows {EnergyText.Energy(most.Energy.Value)}"), Phrase.Empty);
        }

        long rated = new BatteryFigures(Label?.Battery, null, true).RatedMilliwattHours * 1000 ?? (long)((Int128)cells.MicrowattHours * OutPpm / 1_000_000);
        Phrase usual = Phrase.Of($"; about {Hours(rated)} come out");
        return (decimal)perhapsGiven > rated * UsualSlack
            ? Open(
                claim, asked + held + usual + Phrase.Of($", of which 80 to 90 % arrive in a device as a rule, no source"),
                "Log a whole discharge from a full pack, and count.")
            : Open(claim, asked + held + usual, "Log a whole discharge from a full pack.");
    }

    private JudgedClaim Mass(ProductClaim claim)
    {
        if (Build?.BodyMassMilligrams is not { } weighed || claim.MassMilligrams is not { } said)
        {
            return Open(claim, "nobody says what a scale shows", "Weigh the product and state \"mass_g:\" under \"battery:\".");
        }

        Phrase seen = Phrase.Of($"weighed: {PackFigures.GramsText(weighed)}");
        return Math.Abs((long)said - weighed) * 1_000_000 <= (long)weighed * MassSlackPpm
            ? new JudgedClaim(claim, Verdict.Holds, seen, Phrase.Empty)
            : Open(
                claim, seen + Phrase.Of($", claimed: {PackFigures.GramsText(said)}"),
                "Weigh it again without its cables, and read which of them the claim includes.");
    }

    private JudgedClaim Size(ProductClaim claim)
    {
        if (Build?.BodySize is not { } measured || claim.Size is not { } said)
        {
            return Open(claim, "nobody says what a ruler shows", "Measure the product and state \"size_mm:\" under \"battery:\".");
        }

        int[] one = Sides(measured), other = Sides(said);
        Phrase seen = Phrase.Of($"measured: {measured.Text}");
        return one.Length == other.Length && one.Zip(other).All(static pair => AreAlike(pair.First, pair.Second))
            ? new JudgedClaim(claim, Verdict.Holds, seen, Phrase.Empty)
            : Open(claim, seen + Phrase.Of($", claimed: {said.Text}"), "Measure it again without its cables, and read which of them the claim includes.");
    }

    private JudgedClaim OfPower(ProductClaim claim)
    {
        Power said = claim.Power!.Value;
        long slack = PrintedPowers.Tolerance(said.Milliwatts);
        PortOffer[] own = [.. Offers.Where(offer => claim.Port.Length == 0 || PortNames.Same(offer.Port, claim.Port))];
        if (own.MaxBy(static offer => offer.MostPowerMilliwatts) is { IsUnchecked: false } largest && largest.MostPowerMilliwatts + slack >= said.Milliwatts)
        {
            return new JudgedClaim(
                claim, Verdict.Holds, Phrase.Of($"{largest.Port} offers {Power.FromMilliwatts(largest.MostPowerMilliwatts)} ({largest.Place})"), Phrase.Empty);
        }

        if (Printed(claim.Port) is var (most, line) && most + slack < said.Milliwatts)
        {
            return Impossible(
                claim, Phrase.Of($"the label prints {PrintedPowers.Watts(most)}"), line, Phrase.Of($"at most {PrintedPowers.Watts(most)}"));
        }

        Phrase where = claim.Port.Length > 0 ? Phrase.Of($"{claim.Port}") : "the product";
        return Open(
            claim,
            own.Length == 0 ? where + Phrase.Of($" was not captured")
                : Phrase.Of($"at most {Power.FromMilliwatts(own.Max(static offer => offer.MostPowerMilliwatts))} was seen to be offered"),
            claim.Port.Length > 0 ? NextSteps.Capture(claim.Port, [claim.Port]) : "Capture each port alone, and all of them together, or load them.");
    }

    // The most that the label allows; null where it does not say, or was not wholly read.
    private (long Milliwatts, int Line)? Printed(string port)
    {
        if (Label is not { HasUnreadRating: false, Outputs: [_, ..] outputs } label)
        {
            return null;
        }

        if (port.Length > 0)
        {
            return label.FindOutput(port) is { Incomplete: false, Alternating.IsEmpty: true } output && PrintedPowers.Of(output) is { } own
                ? (Math.Max(own, output.Ranges.Select(PrintedPowers.Corner).DefaultIfEmpty(0).Max()), output.At.Line) : null;
        }

        long?[] each = [.. outputs.Select(output => Printed(output.Port)?.Milliwatts)];
        return each.Contains(null) || label.Pads.Length > 0 ? null
            : (Math.Max(each.Sum() ?? 0, label.Total?.Power.Milliwatts ?? 0), label.Total?.At.Line ?? outputs[0].At.Line);
    }

    private static string Times(int thousandths) => (thousandths / 1000m).ToString("0.###", CultureInfo.InvariantCulture);

    private static bool AreAlike(int measured, int said) =>
        Math.Abs((long)measured - said) <= Math.Max(SideSlackHundredths, (long)measured * SideSlackPpm / 1_000_000);

    private static int[] Sides(CellSize size) => [.. new[] { size.First, size.Second, size.Third }.OfType<int>().Order()];

    private static Quantity Hours(Int128 microwattHours) => EnergyText.Energy((long)Int128.Min(long.MaxValue, microwattHours));

    private static JudgedClaim Impossible(ProductClaim claim, Phrase evidence, int? labelLine, Phrase possible) =>
        new(claim, Verdict.Fails, evidence, Phrase.Empty) { LabelLine = labelLine, Possible = possible };

    private static JudgedClaim Open(ProductClaim claim, Phrase evidence, Phrase nextStep) => new(claim, Verdict.CannotTell, evidence, nextStep);

    /// <summary>Each claim, held against all that.</summary>
    public ImmutableArray<JudgedClaim> All(ImmutableArray<ProductClaim> claims) => [.. claims.Select(Judge)];
}
