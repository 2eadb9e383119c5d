using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;
using Portwitness.Product.Energy;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Comparison;

/// <summary>
/// Claims of inputs that are printed with a range of voltage ("12-24V", "5-20V 3A"), or with a voltage and no current. One value inside the
/// range refutes the printed current; that the range is taken is shown at both of its ends.
/// </summary>
internal static class InputRangeClaims
{
    // A supply that is called 12 V gives 12 V within five per cent (common practice, no source).
    private const int EndPerCent = 5;

    /// <summary>The claim as evidence has it; null when nothing is known of it.</summary>
    public static Claim? Judge(Claim claim, Label label, PrintedInput input, PortIntake? intake, IReadOnlyList<MeasuredLog> logs)
    {
        Taken[] all = [.. Listed(intake, input), .. Logged(label, input, logs)];
        if (all.Length == 0)
        {
            return null;
        }

        long? printed = input.Current is { } current ? current.Milliamperes * 1000L : null;
        if (printed is { } most && all.FirstOrDefault(one => one.Least > most) is { } more)
        {
            return (claim with { Position = more.Position, Observed = more.Value }).Fails(ClaimOutcome.TakesMore, more.Seen);
        }

        Phrase seen = Phrase.Join("; ", all.Select(static one => one.Seen));
        claim = claim with { Observed = Phrase.Join(", ", all.Select(static one => one.Value)), Evidence = seen };
        if (all.FirstOrDefault(one => printed is { } limit && one.Microamperes > limit) is not null)
        {
            return claim.CannotTell(ClaimOutcome.TakesMore, seen, "Log a charge again with a more exact meter, and state its accuracy.");
        }

        Voltage[] ends = [.. new[] { input.MinimumVoltage, input.MaximumVoltage }.Distinct()];
        Phrase[] missing =
        [
            .. ends.Where(end => !all.Any(one => one.Microamperes > 0 && IsAt(one.Voltage, end))).Select(static end => Phrase.Of($"{end}")),
        ];
        return missing.Length == 0 ? claim : claim.CannotTell(
            ClaimOutcome.NotCaptured, seen,
            $"Log a charge from empty at {Phrase.Join(" and at ", missing)}, and name the log under \"discharges:\" with "
            + "\"kind: charge\" and \"at:\".");
    }

    // What the port says that it takes, as a sink.
    private static IEnumerable<Taken> Listed(PortIntake? intake, PrintedInput input)
    {
        foreach (OfferedObject one in intake?.List.Objects ?? [])
        {
            FixedSinkSupply supply = new SinkPowerObject(one.Raw).AsFixed();
            if (one.Known == uint.MaxValue && one.Kind == PowerObjectKind.Fixed && IsWithin(supply.Voltage, input))
            {
                // A list counts in 10 mA.
                long microamperes = Math.Max(0, (supply.OperationalCurrent.Milliamperes * 1000L) - 10_000);
                Phrase value = $"{supply.Voltage} {supply.OperationalCurrent}";
                Phrase seen = $"object {one.Position} takes {value} ({intake!.File}, message {intake.List.MessageIndex})";
                yield return new Taken(supply.Voltage, microamperes, microamperes, value, seen, one.Position);
            }
        }
    }

    private static IEnumerable<Taken> Logged(Label label, PrintedInput input, IReadOnlyList<MeasuredLog> logs)
    {
        foreach (MeasuredLog log in InputClaims.LogsOf(label, input, logs))
        {
            if (log.Log.AtVoltage is { } volts && IsWithin(volts, input))
            {
                long most = log.LargestMicroamperes;
                Phrase value = $"{volts} {EnergyText.Amperes(most)}";
                Phrase seen = $"{log.Log.File}: at most {EnergyText.Amperes(most)} at {volts}";
                yield return new Taken(volts, most, most - log.Meter.OfCurrent(most), value, seen, null);
            }
        }
    }

    private static bool IsWithin(Voltage volts, PrintedInput input) => IsAt(volts, input.MinimumVoltage) || IsAt(volts, input.MaximumVoltage)
        || (volts > input.MinimumVoltage && volts < input.MaximumVoltage);

    private static bool IsAt(Voltage volts, Voltage end) => Math.Abs(volts.Millivolts - end.Millivolts) * 100L <= end.Millivolts * (long)EndPerCent;

    // A voltage that was taken or is asked for, with the current in µA, and the least that it surely is.
    private sealed record Taken(Voltage Voltage, long Microamperes, long Least, Phrase Value, Phrase Seen, int? Position);
}
