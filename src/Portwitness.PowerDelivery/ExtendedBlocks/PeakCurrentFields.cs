using Portwitness.PowerDelivery.Layout;

namespace Portwitness.PowerDelivery.ExtendedBlocks;

/// <summary>A "peak current" or "load characteristics" word: bits that Tables 6.54 and 6.65 share.</summary>
internal readonly record struct PeakCurrentFields(BlockField Droop, BlockField Duty, BlockField Period, BlockField Overload)
{
    internal static PeakCurrentFields At(string name, int offset, string droop) => new(
        new BlockField(offset, 2, BitField.Flag($"{name}, {droop}", 15)),
        new BlockField(offset, 2, new BitField($"{name}, Duty Cycle", 14, 11, FieldUnit.Percent, 5)),
        new BlockField(offset, 2, new BitField($"{name}, Overload Period", 10, 5, FieldUnit.Milliseconds, 20)),
        new BlockField(offset, 2, new BitField($"{name}, Percent Overload", 4, 0, FieldUnit.Percent, 10)
            .Means(raw => raw > 25 ? $"250 % (code {raw})" : null)));

    internal PeakCurrent? Read(DataBlock block) => (
        block.GetFlag(Droop), block.GetScaled(Duty), block.GetScaled(Period), block.Get(Overload)) is
        ({ } droop, { } duty, { } period, { } overload)
            ? new PeakCurrent((int)Math.Min(overload, 25) * 10, period, duty, droop)
            : null;
}

/// <summary>How much more than the operating current is supplied or drawn for a while (R3.2v1.1, Tables 6.54 and 6.65).</summary>
/// <param name="OverloadPercent">0 to 250 percent; larger codes count as 250.</param>
/// <param name="PeriodMs">0 to 1260 ms in steps of 20 ms.</param>
/// <param name="DutyPercent">0 to 75 percent in steps of 5.</param>
/// <param name="Droop">VBUS droops meanwhile, or may.</param>
public readonly record struct PeakCurrent(int OverloadPercent, int PeriodMs, int DutyPercent, bool Droop);
