using System.Buffers.Binary;
using System.Text;

namespace Portwitness.Captures.Tests.Pcapng;

/// <summary>Builds pcapng files block by block, in either byte order, right or wrong as a test needs it.</summary>
internal sealed class PcapngFile(bool bigEndian = false)
{
    /// <summary>GoodCRC of a source, with the flags "CRC said to be right", as captures/FORMAT.md lays records out.</summary>
    public static readonly byte[] Message = [1, 1, 0, 0x06, 2, 0, 0x81, 0x00];

    private readonly List<byte> _bytes = [];
    private bool _big = bigEndian;

    public byte[] ToArray() => _bytes.ToArray();

    public PcapngFile Section(bool? big = null, ushort major = 1)
    {
        _big = big ?? _big;
        return Block(0x0A0D0D0A, [.. U32(0x1A2B3C4D), .. U16(major), .. U16(0), .. U64(ulong.MaxValue)]);
    }

    public PcapngFile Interface(string? name = "C1", ushort linkType = 147, uint snap = 0, params byte[][] options) => Block(
        1, [.. U16(linkType), .. U16(0), .. U32(snap), .. name is null ? [] : Option(2, name), .. options.SelectMany(o => o)]);

    public PcapngFile Packet(byte[] payload, ulong stamp = 0, uint port = 0, int? captured = null, int? original = null) => Block(
        6,
        [
            .. U32(port), .. U32((uint)(stamp >> 32)), .. U32((uint)stamp), .. U32((uint)(captured ?? payload.Length)),
            .. U32((uint)(original ?? captured ?? payload.Length)), .. Padded(payload),
        ]);

    public PcapngFile OldPacket(byte[] payload, ulong stamp = 0, ushort port = 0) => Block(
        2,
        [
            .. U16(port), .. U16(0xFFFF), .. U32((uint)(stamp >> 32)), .. U32((uint)stamp), .. U32((uint)payload.Length),
            .. U32((uint)payload.Length), .. Padded(payload),
        ]);

    public PcapngFile SimplePacket(byte[] payload, int? original = null) =>
        Block(3, [.. U32((uint)(original ?? payload.Length)), .. Padded(payload)]);

    public PcapngFile Block(uint type, byte[] body, uint? length = null, uint? trailing = null)
    {
        uint whole = (uint)body.Length + 12;
        _bytes.AddRange([.. U32(type), .. U32(length ?? whole), .. body, .. U32(trailing ?? length ?? whole)]);
        return this;
    }

    public byte[] Option(ushort code, string text) => Option(code, Encoding.UTF8.GetBytes(text));

    public byte[] Option(ushort code, byte[] value) => [.. U16(code), .. U16((ushort)value.Length), .. Padded(value)];

    public byte[] U16(ushort value) => BitConverter.GetBytes(_big ? BinaryPrimitives.ReverseEndianness(value) : value);

    public byte[] U32(uint value) => BitConverter.GetBytes(_big ? BinaryPrimitives.ReverseEndianness(value) : value);

    public byte[] U64(ulong value) => BitConverter.GetBytes(_big ? BinaryPrimitives.ReverseEndianness(value) : value);

    private static byte[] Padded(byte[] value) => [.. value, .. new byte[-value.Length & 3]];
}
