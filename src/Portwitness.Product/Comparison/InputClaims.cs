using Portwitness.Analysis.Phrases;
using Portwitness.Labels;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.Product.Offers;

namespace Portwitness.Product.Comparison;

/// <summary>Claims of printed inputs, held against what the ports say that they take.</summary>
internal static class InputClaims
{
    /// <summary>Holds printed inputs against what the ports say that they take.</summary>
    public static IEnumerable<Claim> Of(Label label, IReadOnlyList<PortIntake> intakes)
    {
        Dictionary<string, PortIntake> byPort = [];
        foreach (PortIntake intake in intakes)
        {
            byPort[PortNames.Key(intake.Port)] = intake;
        }

        foreach (PrintedInput input in label.Inputs)
        {
            bool isFixed = !input.Alternating && input.MinimumVoltage == input.MaximumVoltage && input.Current is not null;
            if (isFixed && input.Port is not null && byPort.TryGetValue(PortNames.Key(input.Port), out PortIntake? found))
            {
                yield return Judge(found, input);
            }
        }
    }

    // Only more than printed fails: what a port takes may change with its state, and another protocol is not in the list.
    private static Claim Judge(PortIntake intake, PrintedInput input)
    {
        Phrase place = $"{intake.File}, message {intake.List.MessageIndex}";
        Claim claim = new()
        {
            Kind = ClaimKind.Input,
            Port = intake.Port,
            At = input.At,
            Text = $"{intake.Port} takes {input.MaximumVoltage} {input.Current}",
            Printed = $"{input.MaximumVoltage} {input.Current}",
        };
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
