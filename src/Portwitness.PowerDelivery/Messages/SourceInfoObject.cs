using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Messages;

/// <summary>The object of a Source_Info message, SIDO (R3.2v1.1, 6.4.11, Table 6.51). Any word is kept.</summary>
/// <param name="Raw">The word.</param>
public readonly record struct SourceInfoObject(uint Raw)
{
    private static readonly BitField GuaranteedField = BitField.Flag("Port Type", 31).Codes((0, "managed"), (1, "guaranteed"));
    private static readonly BitField MaximumField = new("Port Maximum PDP", 23, 16, FieldUnit.Milliwatts, 1000);
    private static readonly BitField PresentField = new("Port Present PDP", 15, 8, FieldUnit.Milliwatts, 1000);
    private static readonly BitField ReportedField = new("Port Reported PDP", 7, 0, FieldUnit.Milliwatts, 1000);

    /// <summary>All 32 bits.</summary>
    public static BitLayout Layout { get; } = new(
        "Source_Info Data Object", 32, "R3.2v1.1 Table 6.51",
        GuaranteedField, BitField.Reserved(30, 24), MaximumField, PresentField, ReportedField);

    /// <summary>Guaranteed capability port; otherwise a managed one.</summary>
    public bool Guaranteed => GuaranteedField.IsSet(Raw);

    /// <summary>What the port is designed for: whole watts, 0 to 255, the integer part of the PDP rating.</summary>
    public Power MaximumPdp => Power.FromMilliwatts(MaximumField.GetScaled(Raw));

    /// <summary>What the port can supply now, whole watts.</summary>
    public Power PresentPdp => Power.FromMilliwatts(PresentField.GetScaled(Raw));

    /// <summary>Integer part of the largest voltage times current of the fixed supplies last advertised, in watts.</summary>
    public Power ReportedPdp => Power.FromMilliwatts(ReportedField.GetScaled(Raw));

    /// <summary>Builds the object.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A power is not whole watts from 0 to 255.</exception>
    public static SourceInfoObject Create(bool guaranteed, Power maximum, Power present, Power reported)
    {
        uint word = MaximumField.SetScaled(GuaranteedField.SetFlag(0, guaranteed), maximum.Milliwatts);
        word = PresentField.SetScaled(word, present.Milliwatts);
        return new SourceInfoObject(ReportedField.SetScaled(word, reported.Milliwatts));
    }
}
