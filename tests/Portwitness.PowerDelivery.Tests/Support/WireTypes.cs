using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Tests.Support;

/// <summary>The kinds of word that are decoded and encoded; the parts are in the other WireTypes files.</summary>
internal static partial class WireTypes
{
    public static IReadOnlyList<WireType> All { get; } =
        [.. Headers(), .. Sources(), .. Sinks(), .. Requests(), .. Vendor(), .. Small()];

    public static IEnumerable<object[]> Names => All.Select(type => new object[] { type.Name });

    public static WireType Of(string name) => All.Single(type => type.Name == name);

    /// <summary>Class and code as one number.</summary>
    public static long KindNumber(MessageClass messageClass, int code) => ((int)messageClass * 32) + code;

    private static long N(bool value) => value ? 1 : 0;

    private static Voltage V(int millivolts) => Voltage.FromMillivolts(millivolts);

    private static Current A(int milliamperes) => Current.FromMilliamperes(milliamperes);

    private static Power W(int milliwatts) => Power.FromMilliwatts(milliwatts);

    private static IEnumerable<WireType> Headers() =>
    [
        new("message_header", MessageHeader.Layout, 0, 0,
            raw =>
            {
                MessageHeader h = new((ushort)raw);
                return new()
                {
                    ["kind"] = KindNumber(h.Kind.Class, h.Kind.Code), ["object_count"] = h.ObjectCount,
                    ["message_id"] = h.MessageId, ["source_or_cable_plug"] = N(h.SourceOrCablePlug),
                    ["revision_code"] = h.RevisionCode, ["downstream_facing"] = N(h.DownstreamFacing),
                };
            },
            f => MessageHeader.Create(
                new MessageKind((MessageClass)(f["kind"] / 32), f["kind"] % 32), f["object_count"], f["message_id"],
                f.Is("source_or_cable_plug"), f.Is("downstream_facing"), f["revision_code"]).Raw,
            raw => new MessageHeader((ushort)raw).ToString()),

        new("extended_header", ExtendedHeader.Layout, 0, 0,
            raw =>
            {
                ExtendedHeader h = new((ushort)raw);
                return new()
                {
                    ["chunked"] = N(h.Chunked), ["chunk_number"] = h.ChunkNumber, ["request_chunk"] = N(h.RequestChunk),
                    ["data_size"] = h.DataSize,
                };
            },
            f => ExtendedHeader.Create(f.Is("chunked"), f["chunk_number"], f.Is("request_chunk"), f["data_size"]).Raw,
            raw => new ExtendedHeader((ushort)raw).ToString()),
    ];
}
