using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Product.Energy;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Comparison;

/// <summary>Claims of printed inputs, held against what the ports say that they take.</summary>
internal static class InputClaims
{
    /// <summary>
    /// Holds printed inputs against what the ports say that they take, and against logs of a charge. Of a product with a battery each is a
    /// claim; of others those that evidence tells of are. The mains inlet is judged from the label alone.
    /// </summary>
    public static IEnumerable<Claim> Of(Label label, IReadOnlyList<PortIntake> intakes, IReadOnlyList<MeasuredLog> logs)
    {
        Dictionary<string, PortIntake> byPort = [];
        foreach (PortIntake intake in intakes)
        {
            byPort[PortNames.Key(intake.Port)] = intake;
        }

        foreach (PrintedInput input in label.Inputs.Where(static input => !input.Alternating))
        {
            PortIntake? intake = input.Port is null ? null : byPort.GetValueOrDefault(PortNames.Key(input.Port));
            bool isMode = input.MinimumVoltage == input.MaximumVoltage && input.Current is not null;
            Claim? claim = isMode && intake is not null ? Judge(intake, input) : null;
            if (claim is not { Verdict: Verdict.Fails or Verdict.Holds } && isMode && LogOf(label, input, logs) is { } log)
            {
                claim = Judge(log, input);
            }

            if (!isMode)
            {
                claim = InputRangeClaims.Judge(Begin(input), label, input, intake, logs);
            }

            claim ??= label.Battery is null ? null : Begin(input).CannotTell(
                ClaimOutcome.NotCaptured, "neither the list of the port as a sink nor a log of a charge was given", HowToTell(input, isMode));
            if (claim is not null)
            {
                yield return claim;
            }
        }
    }

    private static Phrase HowToTell(PrintedInput input, bool isMode)
    {
        string port = input.Port ?? "the input";
        Phrase at = input.MinimumVoltage == input.MaximumVoltage ? Phrase.Of($"at {input.MaximumVoltage}") : $"from {input.MinimumVoltage} to {input.MaximumVoltage}";
        return isMode
            ? Phrase.Of($"Capture {port} while it answers Get_Sink_Cap; or log a charge from empty {at}, and name it under \"discharges:\" with \"kind: charge\" and \"at:\".")
            : $"Log a charge through {port} from empty at each end of what is printed, {at}, and name the logs under \"discharges:\" with \"kind: charge\" and \"at:\".";
    }

    private static MeasuredLog? LogOf(Label label, PrintedInput input, IReadOnlyList<MeasuredLog> logs) => LogsOf(label, input, logs)
        .Where(log => log.Log.AtVoltage == input.MaximumVoltage).MaxBy(static log => log.LargestMicroamperes);

    /// <summary>Logs of a charge through a printed input; one without a port is of the only input.</summary>
    internal static IEnumerable<MeasuredLog> LogsOf(Label label, PrintedInput input, IReadOnlyList<MeasuredLog> logs) => logs
        .Where(log => log.Log.Kind == LogKind.Charge && !log.UnitsAssumed
            && (log.Log.Port is { } port && input.Port is not null ? PortNames.Same(port, input.Port)
                : label.Inputs.Select(static one => one.Port).Distinct().Count() == 1));

    // What is within the meter's uncertainty is not told.
    private static Claim Judge(MeasuredLog log, PrintedInput input)
    {
        long most = log.LargestMicroamperes;
        long printed = input.Current!.Value.Milliamperes * 1000L;
        Phrase seen = $"{log.Log.File}: at most {EnergyText.Amperes(most)} at {log.Log.AtVoltage}";
        Claim claim = Begin(input) with { Observed = $"{EnergyText.Amperes(most)}", Evidence = seen };
        return most - log.Meter.OfCurrent(most) > printed ? claim.Fails(ClaimOutcome.TakesMore, seen)
            : most <= printed ? claim
            : claim.CannotTell(ClaimOutcome.TakesMore, seen, "Log a charge again with a more exact meter, and state its accuracy.");
    }

    private static Claim Begin(PrintedInput input)
    {
        Phrase volts = input.MinimumVoltage == input.MaximumVoltage ? Phrase.Of($"{input.MaximumVoltage}") : $"{input.MinimumVoltage} to {input.MaximumVoltage}";
        Phrase taken = input.Current is null ? volts : $"{volts} {input.Current}";
        return LabelComparison.Begin(ClaimKind.Input, input.Port ?? "", input.At, $"{input.Port ?? "the input"} takes {taken}") with { Printed = taken };
    }

    // Only more than printed fails: what a port takes may change with its state, and another protocol is not in the list.
    private static Claim Judge(PortIntake intake, PrintedInput input)
    {
        Phrase place = $"{intake.File}, message {intake.List.MessageIndex}";
        Claim claim = Begin(input) with { Port = intake.Port, Text = $"{intake.Port} takes {input.MaximumVoltage} {input.Current}" };
        foreach (OfferedObject taken in intake.List.Objects)
        {
            FixedSinkSupply supply = new SinkPowerObject(taken.Raw).AsFixed();
            if (taken.Known != uint.MaxValue || taken.Kind != PowerObjectKind.Fixed
                || Math.Abs(supply.Voltage.Millivolts - input.MaximumVoltage.Millivolts) > 25)
            {
                continue;
            }

            Phrase seen = $"object {taken.Position} takes {supply.Voltage} {supply.OperationalCurrent} ({place})";
            claim = claim with { Position = taken.Position, Observed = $"{supply.Voltage} {supply.OperationalCurrent}", Evidence = seen };
            return supply.OperationalCurrent.Milliamperes > input.Current!.Value.Milliamperes + 10
                ? claim.Fails(ClaimOutcome.TakesMore, seen)
                : claim;
        }

        return claim.CannotTell(
            ClaimOutcome.NotAdvertised, $"no fixed object of {place} takes {input.MaximumVoltage}", NextSteps.OtherProtocol);
    }
}
