using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Following.Links;

/// <summary>Messages that were sent and that the capture misses.</summary>
/// <param name="Sop">Whom they were between; null when that is not known.</param>
/// <param name="FromSourceOrPlug">Which end sent them; null when that is not known.</param>
/// <param name="Count">How many, as far as MessageIDs tell; 0 when only a GoodCRC or a retry is missing.</param>
/// <param name="SinceUs">Not before this time.</param>
/// <param name="TimeUs">When it showed.</param>
public readonly record struct Loss(SopKind? Sop, bool? FromSourceOrPlug, int Count, long SinceUs, long TimeUs)
{
    /// <summary>Any message of anybody, at this time.</summary>
    public static Loss OfAny(long timeUs, SopKind? sop = null) => new(sop, null, 1, timeUs, timeUs);

    /// <summary>Whether it may have been a message of this SOP kind.</summary>
    public bool MayBe(SopKind sop) => Count > 0 && (Sop is null || Sop == sop);
}
