using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Profile;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>An object's voltage is above what its list may hold.</summary>
public sealed class VoltageBeyondRange : CapabilityRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "voltage-beyond-range",
        Severity = Severity.Violation,
        Title = "A voltage is above what the list may hold",
        Clause = "R3.2v1.1 6.4.1, 10.2.3.3",
        Why = "An SPR list ends at 20 V and PPS at 21 V; nothing goes above 48 V. A cable or device that is not made for "
            + "more can be destroyed, and above 28 V contacts arc.",
        Evidence = "The object's kind and voltage bits.",
        Example = new ListExample("0x0001912C 0x0002D12C 0x0004B12C 0x000641F4 0x0008C1F4", "28 V stands in an SPR list."),
        Category = RuleCategory.Capabilities,
    };

    /// <inheritdoc/>
    public override void Check(in ListCase list, IHitSink hits)
    {
        foreach (OfferedObject offered in list.Objects)
        {
            if (offered.HighestVoltage() is not { } voltage)
            {
                continue;
            }

            Voltage nominal = list.IsEpr ? Electrical.EprFixedVoltages[^1] : Electrical.SprMaximumFixed;
            Voltage most = offered.Kind switch
            {
                PowerObjectKind.Fixed => nominal,
                PowerObjectKind.Pps => AdjustableRanges.PpsFrom5V[^1].Maximum,
                PowerObjectKind.EprAvs => Electrical.EprFixedVoltages[^1],

                // Limits of variable and battery supplies include the tolerance of 5 % (6.4.1.2.2).
                _ => Voltage.FromMillivolts(nominal.Millivolts * 105 / 100),
            };
            if (voltage > most)
            {
                hits.Report(this, new Hit(Verdict.Fails, $"{offered} stands in {list.Message}.")
                {
                    Position = offered.Position,
                    Expected = $"at most {most}",
                    Observed = $"{voltage}",
                });
            }
        }
    }
}
