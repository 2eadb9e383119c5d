using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Profile;
using Portwitness.Labels;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Analysis.Comparison;

/// <summary>What the captured port says that it takes, as a source with dual-role power.</summary>
/// <param name="Port">The port, as the label names it where it does.</param>
/// <param name="File">The capture's name.</param>
/// <param name="List">Its last list.</param>
public sealed record PortIntake(string Port, string File, Advertisement List)
{
    private const ushort RoleBit = 0x0100;

    /// <summary>
    /// The port's own list; null when there is none. Whose a sink's list is goes by the power roles, which only a completed
    /// power role swap changes (R3.2v1.1, 6.3.10).
    /// </summary>
    public static PortIntake? Of(CaptureAnalysis capture, string port)
    {
        Advertisement? list = capture.Advertisements.LastOrDefault(static one =>
            (one.Message == MessageKind.SinkCapabilities || one.Message == MessageKind.EPRSinkCapabilities)
            && (one.HeaderKnown & RoleBit) != 0 && one is { ByPartner: false, RoleIsCertain: true });
        return list is null ? null : new PortIntake(port, capture.File, list);
    }

    /// <summary>Holds printed inputs against what the ports say that they take.</summary>
    public static IEnumerable<Claim> ClaimsOf(Label label, IReadOnlyList<PortIntake> intakes)
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
                yield return found.Judge(input);
            }
        }
    }

    // Only more than printed fails: what a port takes may change with its state, and another protocol is not in the list.
    private Claim Judge(PrintedInput input)
    {
        Phrase place = $"{File}, message {List.MessageIndex}";
        Claim claim = new()
        {
            Kind = ClaimKind.Input,
            Port = Port,
            At = input.At,
            Text = $"{Port} takes {input.MaximumVoltage} {input.Current}",
            Printed = $"{input.MaximumVoltage} {input.Current}",
        };
        foreach (OfferedObject taken in List.Objects)
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
