using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Requests;

/// <summary>Request of an adjustable voltage supply, SPR or EPR (R3.2v1.1, Table 6.26), since R3.1.</summary>
/// <remarks>The voltage counts 25 mV, but its two lowest bits are sent as zero: the step is 100 mV.</remarks>
/// <param name="Raw">The word.</param>
public readonly record struct AvsRequest(uint Raw)
{
    private const int StepMillivolts = 100;

    /// <summary>Bits 20 to 9, steps of 25 mV.</summary>
    public static readonly BitField VoltageField = new("Output Voltage", 20, 9, FieldUnit.Millivolts, 25);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = RequestLayouts.Since31(
        "AVS RDO", "R3.2v1.1 Table 6.26", BitField.Reserved(27, 27), BitField.Reserved(21, 21),
        VoltageField, BitField.Reserved(8, 7), PpsRequest.CurrentField);

    /// <summary>Position and flags.</summary>
    public RequestObject Request => new(Raw);

    /// <summary>0 to 102.375 V; a legal request is a whole number of 100 mV.</summary>
    public Voltage OutputVoltage => Voltage.FromMillivolts(VoltageField.GetScaled(Raw));

    /// <summary>0 to 6.35 A.</summary>
    public Current OperatingCurrent => Current.FromMilliamperes(PpsRequest.CurrentField.GetScaled(Raw));

    /// <summary>A request without flags.</summary>
    /// <param name="objectPosition">0 to 15.</param>
    /// <param name="output">Up to 102.3 V in steps of 100 mV.</param>
    /// <param name="operating">Up to 6.35 A in steps of 50 mA.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value does not fit, or is no whole number of steps.</exception>
    public static AvsRequest Create(int objectPosition, Voltage output, Current operating)
    {
        if (output.Millivolts % StepMillivolts != 0)
        {
            throw new ArgumentOutOfRangeException(
                nameof(output), output, $"{VoltageField.Name} is coded in steps of {StepMillivolts}.");
        }

        uint word = RequestObject.ObjectPositionField.SetScaled(0, objectPosition);
        word = VoltageField.SetScaled(word, output.Millivolts);
        return new AvsRequest(PpsRequest.CurrentField.SetScaled(word, operating.Milliamperes));
    }
}
