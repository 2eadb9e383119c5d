using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.PowerData;

/// <summary>Values of an offered object that several kinds share. Bits that were not shown give null.</summary>
public static class OfferedObjectReading
{
    private const int AvsTurn = 15_000;
    private const int AvsCurrentStep = 50;

    /// <summary>The largest current that the object names; null for battery and EPR AVS, which name a power.</summary>
    public static Current? MaximumCurrent(this OfferedObject offered)
    {
        SourcePowerObject word = offered.AsSource();
        return offered switch
        {
            { KindIsKnown: false } or { IsZero: true } => null,
            { Kind: PowerObjectKind.Fixed } when offered.Knows(FixedSourceSupply.MaximumCurrentField) => word.AsFixed().MaximumCurrent,
            { Kind: PowerObjectKind.Variable } when offered.Knows(VariableSourceSupply.CurrentField) => word.AsVariable().MaximumCurrent,
            { Kind: PowerObjectKind.Pps } when offered.Knows(PpsSourceSupply.CurrentField) => word.AsPps().MaximumCurrent,
            { Kind: PowerObjectKind.SprAvs } when offered.Knows(SprAvsSourceSupply.Current15Field)
                && offered.Knows(SprAvsSourceSupply.Current20Field) =>
                word.AsSprAvs().MaximumCurrentTo15V > word.AsSprAvs().MaximumCurrentTo20V
                    ? word.AsSprAvs().MaximumCurrentTo15V
                    : word.AsSprAvs().MaximumCurrentTo20V,
            _ => null,
        };
    }

    /// <summary>
    /// The largest current that may be asked for at a voltage: of AVS it depends on it. At exactly 15 V the larger of the two
    /// currents of SPR AVS may be asked for (R3.2v1.1, Table 10.2, note 5); EPR AVS gives PDP / V rounded down to 50 mA, 5 A at most
    /// (6.4.2.8). Null for battery supplies, and for what was not shown.
    /// </summary>
    public static Current? MaximumCurrentAt(this OfferedObject offered, Voltage? voltage)
    {
        if (offered.Is(PowerObjectKind.SprAvs) && voltage is { } at && offered.MaximumCurrent() is { } larger)
        {
            SprAvsSourceSupply avs = offered.AsSource().AsSprAvs();
            return at.Millivolts < AvsTurn ? avs.MaximumCurrentTo15V : at.Millivolts > AvsTurn ? avs.MaximumCurrentTo20V : larger;
        }

        return offered.Is(PowerObjectKind.EprAvs) && voltage is { } asked && offered.Knows(EprAvsSourceSupply.PdpField)
            ? Current.FromMilliamperes(Within(offered.AsSource().AsEprAvs().Pdp, asked))
            : offered.MaximumCurrent();
    }

    /// <summary>The largest current, in steps of 50 mA, that stays within a power at a voltage, in mA; 5 A at most.</summary>
    public static int Within(Power power, Voltage voltage) => voltage.Millivolts == 0 ? 0 : (int)Math.Min(
        (long)power.Milliwatts * 1000 / voltage.Millivolts / AvsCurrentStep * AvsCurrentStep, Electrical.ConnectorMaximum.Milliamperes);

    /// <summary>The voltage, or the upper end of the range.</summary>
    public static Voltage? HighestVoltage(this OfferedObject offered)
    {
        SourcePowerObject word = offered.AsSource();
        return offered switch
        {
            { KindIsKnown: false } or { IsZero: true } => null,
            { Kind: PowerObjectKind.Fixed } when offered.Knows(FixedSourceSupply.VoltageField) => word.AsFixed().Voltage,
            { Kind: PowerObjectKind.Battery } when offered.Knows(BatterySourceSupply.MaximumVoltageField) => word.AsBattery().MaximumVoltage,
            { Kind: PowerObjectKind.Variable } when offered.Knows(BatterySourceSupply.MaximumVoltageField) => word.AsVariable().MaximumVoltage,
            { Kind: PowerObjectKind.Pps } when offered.Knows(PpsSourceSupply.MaximumVoltageField) => word.AsPps().MaximumVoltage,
            { Kind: PowerObjectKind.EprAvs } when offered.Knows(EprAvsSourceSupply.MaximumVoltageField) => word.AsEprAvs().MaximumVoltage,
            { Kind: PowerObjectKind.SprAvs } when offered.Knows(SprAvsSourceSupply.Current20Field) => word.AsSprAvs().MaximumVoltage,
            _ => null,
        };
    }

    /// <summary>The voltage, or the lower end of the range.</summary>
    public static Voltage? LowestVoltage(this OfferedObject offered)
    {
        SourcePowerObject word = offered.AsSource();
        return offered switch
        {
            { KindIsKnown: false } or { IsZero: true } => null,
            { Kind: PowerObjectKind.Fixed } when offered.Knows(FixedSourceSupply.VoltageField) => word.AsFixed().Voltage,
            { Kind: PowerObjectKind.Battery } when offered.Knows(BatterySourceSupply.MinimumVoltageField) => word.AsBattery().MinimumVoltage,
            { Kind: PowerObjectKind.Variable } when offered.Knows(BatterySourceSupply.MinimumVoltageField) => word.AsVariable().MinimumVoltage,
            { Kind: PowerObjectKind.Pps } when offered.Knows(PpsSourceSupply.MinimumVoltageField) => word.AsPps().MinimumVoltage,
            { Kind: PowerObjectKind.EprAvs } when offered.Knows(EprAvsSourceSupply.MinimumVoltageField) => word.AsEprAvs().MinimumVoltage,
            { Kind: PowerObjectKind.SprAvs } => SprAvsSourceSupply.MinimumVoltage,
            _ => null,
        };
    }
}
