using System.Collections.Immutable;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Negotiation.Tests;

/// <summary>Lists of words as a device meets them.</summary>
internal static class NegotiationRun
{
    /// <summary>An SPR list, and an EPR list where there is one.</summary>
    public static SourceOffer Offer(IEnumerable<uint> spr, IEnumerable<uint>? epr = null)
    {
        ImmutableArray<OfferedObject> objects = Objects(spr);
        return new SourceOffer
        {
            Port = "C1",
            File = "words",
            Spr = objects,
            Epr = epr is null ? [] : Objects(epr),
            EprCapable = objects is [{ Kind: PowerObjectKind.Fixed } first, ..] && first.AsSource().AsFixed().EprCapable,
        };
    }

    /// <summary>Words as "0x0801912C 0x0002D12C".</summary>
    public static SourceOffer Offer(string words) => Offer(Words(words));

    public static IEnumerable<uint> Words(string words) => words.Split(' ').Select(word => Convert.ToUInt32(word, 16));

    public static SinkDescription Sink(string words)
    {
        SinkList list = SinkDescriptionReader.OfWords(words);
        list.Faults.Should().BeEmpty();
        return list.Sinks[0];
    }

    public static SinkNegotiation Negotiate(string words, string sink, SinkPolicy? policy = null) =>
        Negotiator.Of(Offer(words), Sink(sink), policy ?? SinkPolicy.MostPower);

    private static ImmutableArray<OfferedObject> Objects(IEnumerable<uint> words) =>
        [.. words.Select((word, index) => new OfferedObject(index + 1, word, uint.MaxValue))];
}
