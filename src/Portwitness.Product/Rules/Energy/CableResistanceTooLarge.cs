using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Loads;

namespace Portwitness.Product.Rules.Energy;

/// <summary>A cable that was measured at both ends loses more than one may.</summary>
public sealed class CableResistanceTooLarge : CableLossRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "cable-resistance-too-large",
        Severity = Severity.Caution,
        Title = "A cable that was measured at both ends loses more than one may",
        Clause = "common practice, no source that was read: USB Type-C R2.4, 4.4.1, 500 mV on VBUS and 250 mV on ground at the rated current, second-hand",
        Why = "What the cable loses the device does not get, and a bench that measures behind it accuses the charger.",
        Evidence = "\"loads:\" of one port with \"measured_at: source\" and \"measured_at: sink\" at the same current; at two currents what the meters differ by does not count.",
        Example = new ProductExample(
            "0x0801912C", "5.08 V at the charger are 4.24 V at the device with 3 A: 280 mΩ.",
            Members: """
            label: "USB-C: 5V⎓3A"
            loads:
              - {port: C, at: 5V 3A, measured: 5.08V 3A, for: 1min, measured_at: source, accuracy: {volts: 3mV, amps: 6mA}}
              - {port: C, at: 5V 3A, measured: 4.24V 3A, for: 1min, measured_at: sink, accuracy: {volts: 3mV, amps: 6mA}}
            """),
        Category = RuleCategory.Energy,
    };

    /// <inheritdoc/>
    public override void Check(CableLoss cable, IProductHitSink hits)
    {
        if (cable.Microohms <= CableLoss.MostMicroohmsOfThreeAmperes)
        {
            return;
        }

        bool isSure = cable.Microohms - cable.ExpandedMicroohms > CableLoss.MostMicroohmsOfThreeAmperes;
        hits.Report(
            this,
            new Hit(
                isSure ? Verdict.Fails : Verdict.CannotTell,
                $"{Ohms(cable.Microohms)} ± {Ohms(cable.ExpandedMicroohms)} (k = 2), by {(cable.IsByTwoCurrents ? "two currents" : "two points")}, at {cable.At}.")
            {
                Expected = $"at most {Ohms(CableLoss.MostMicroohmsOfThreeAmperes)} for 3 A", Observed = $"{Ohms(cable.Microohms)}",
                NextStep = isSure ? null : "Measure both ends at two currents, with more exact meters.",
            },
            new ProductPlace(cable.Port, []));
    }

    private static Quantity Ohms(long microohms) => new(microohms, QuantityUnit.Microohms);
}
