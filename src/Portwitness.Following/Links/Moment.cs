namespace Portwitness.Following.Links;

/// <summary>The first bit or the end of something that the capture stamps with a time.</summary>
/// <param name="StampUs">The stamp.</param>
/// <param name="Bits">Bits of the frame; 0 for an event.</param>
/// <param name="AtEnd">The end of its last bit; false: its first bit.</param>
public readonly record struct Moment(long StampUs, int Bits, bool AtEnd)
{
    /// <summary>Bits of a GoodCRC: a header and no objects.</summary>
    public static readonly int GoodCrcBits = PowerDelivery.Framing.FrameEncoder.BitCount(2);

    /// <summary>The end of a GoodCRC.</summary>
    public static Moment EndOfGoodCrc(long stampUs) => new(stampUs, GoodCrcBits, true);

    /// <summary>The first bit of a GoodCRC.</summary>
    public static Moment StartOfGoodCrc(long stampUs) => new(stampUs, GoodCrcBits, false);

    /// <summary>An event at the bench.</summary>
    public static Moment Event(long stampUs) => new(stampUs, 0, false);
}

/// <summary>How long something took, as far as the capture's times tell.</summary>
/// <param name="LeastUs">At least.</param>
/// <param name="MostUs">At most.</param>
public readonly record struct Elapsed(long LeastUs, long MostUs);
