using Portwitness.Analysis.Evidence;
using Portwitness.Analysis.Phrases;
using Portwitness.Analysis.Rules;
using Portwitness.Product.Parts;

namespace Portwitness.Product.Rules.Parts;

/// <summary>A cable drops more than USB Type-C allows.</summary>
public sealed class CableDropTooLarge : PartRule
{
    /// <inheritdoc/>
    public override RuleDescription Description { get; } = new()
    {
        Name = "cable-drop-too-large",
        Severity = Severity.Caution,
        Title = "A cable drops more voltage than USB Type-C allows",
        Clause = "common practice, no source read: 500 mV on VBUS and 250 mV on GND at the rated current, as USB Type-C is restated",
        Why = "What a cable drops a device lacks: it charges slower, or falls back, and the cable gets warm.",
        Evidence = "\"milliohms:\" there and back, measured, or \"length_m:\" and \"awg:\", of a part of kind cable, with \"amps:\" or a capture of its port.",
        Example = new ProductExample(
            "0x0801912C 0x0002D12C 0x0004B12C 0x00064145", "3.25 A through 300 mΩ drop 975 mV; 750 mV are allowed.",
            Members: "parts:\n  - {part: W1, kind: cable, node: C, milliohms: 300}"),
        Category = RuleCategory.Parts,
    };

    private const int MaxMillivolts = 750;

    /// <inheritdoc/>
    public override void Check(PartStress part, IProductHitSink hits)
    {
        if (part.Part.Kind != PartKind.Cable || (part.Part.Amperes ?? part.Level.Largest) is not { } current)
        {
            return;
        }

        long microohms = part.Part.Microohms ?? WireGauge.MicroohmsThereAndBack(part.Part.Gauge!.Value, part.Part.Millimetres!.Value);

        // Rounded up: what is over the limit is printed so.
        long millivolts = ((microohms * current.Milliamperes) + 999_999) / 1_000_000;
        if (millivolts <= MaxMillivolts)
        {
            return;
        }

        Phrase ohms = $"{microohms / 1000} mΩ";
        Phrase known = part.Part.Microohms is not null ? ohms : ohms + Phrase.Of($" (AWG {part.Part.Gauge}, copper alone, at 20 °C)");
        Phrase seen = $"{millivolts} mV";
        hits.Report(
            this,
            new Hit(Verdict.CannotTell, $"{current} through {part.Part.Name} of {known} drop {seen}; {MaxMillivolts} mV are allowed.")
            {
                Expected = $"at most {MaxMillivolts} mV", Observed = seen,
                NextStep = "Measure the drop on VBUS and on GND between the plugs at that current, with four wires.",
            },
            PlaceOf(part));
    }
}
