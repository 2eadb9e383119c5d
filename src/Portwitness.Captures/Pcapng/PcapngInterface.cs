using System.Globalization;
using System.Text;
using System.Text.Unicode;
using Portwitness.Captures.Input;

namespace Portwitness.Captures.Pcapng;

/// <summary>One interface of a section: a port.</summary>
internal sealed class PcapngInterface
{
    /// <summary>Link type, reserved, snap length (4.2 of the draft).</summary>
    public const int FixedBytes = 8;

    /// <summary>A header's text is cut into comments of this length where one would not hold it.</summary>
    public const int CommentBytes = 65532;

    private const int MaxNameBytes = 1024;
    private const int MaxHeaderBytes = 4 * CommentBytes;

    /// <summary>Counted from 0 within the section.</summary>
    public required int Index { get; init; }

    /// <summary>What its packets hold; 147 for records.</summary>
    public required ushort LinkType { get; init; }

    /// <summary>Bytes of a packet that are kept at most; 0 for all.</summary>
    public uint SnapLength { get; private init; }

    /// <summary>The port; null when not stated.</summary>
    public string? Name { get; private set; }

    /// <summary>Its time stamps.</summary>
    public InterfaceClock Clock { get; private set; } = new(6, 0);

    /// <summary>The header's JSON; empty when there is none.</summary>
    public byte[] HeaderText { get; set; } = [];

    /// <summary>Packets that were not read because another port's are.</summary>
    public long Unread { get; set; }

    /// <summary>Whether its packets are records.</summary>
    public bool IsOfRecords => LinkType == BlockTypes.LinkType;

    /// <summary>Whether it is the port that was asked for: by name, or by number when it has none.</summary>
    public bool Is(string? name) => string.Equals(
        Name ?? Index.ToString(CultureInfo.InvariantCulture), name, StringComparison.OrdinalIgnoreCase);

    /// <summary>For messages.</summary>
    public string Label => Name is null ? $"Interface {Index}" : $"Interface {Index} ({Name})";

    /// <summary>Reads an Interface Description Block's body.</summary>
    public static PcapngInterface Read(int index, PcapngBlock body, long offset, FaultLog faults)
    {
        PcapngInterface found = new() { Index = index, LinkType = body.U16(0), SnapLength = body.U32(4) };
        byte resolution = 6;
        long shift = 0;
        using MemoryStream header = new();
        bool continues = false;
        OptionReader options = body.Options(FixedBytes);
        while (options.Next())
        {
            ReadOnlySpan<byte> value = options.Value.Bytes;
            switch (options.Code)
            {
                case BlockTypes.InterfaceName when value.TrimEnd((byte)0).Length is > 0 and <= MaxNameBytes && Utf8.IsValid(value):
                    found.Name = Encoding.UTF8.GetString(value.TrimEnd((byte)0));
                    break;
                case BlockTypes.InterfaceName:
                    faults.Report(0, 0, FaultCodes.PcapngOptionInvalid, FaultText.PcapngNameInvalid(offset));
                    break;
                case BlockTypes.TimeResolution when value.Length == 1:
                    resolution = value[0];
                    break;
                case BlockTypes.TimeOffset when value.Length == 8:
                    shift = (long)options.Value.U64(0);
                    break;
                case BlockTypes.TimeResolution or BlockTypes.TimeOffset:
                    faults.Report(0, 0, FaultCodes.PcapngOptionInvalid, FaultText.PcapngTimeOptionInvalid(offset));
                    break;
                case BlockTypes.Comment when continues || (header.Length == 0 && value.StartsWith("{\"capture\""u8)):
                    header.Write(value);
                    continues = value.Length == CommentBytes && header.Length < MaxHeaderBytes;
                    break;
            }
        }

        if (options.IsBroken)
        {
            faults.Report(0, 0, FaultCodes.PcapngOptionInvalid, FaultText.PcapngOptionsBroken(offset));
        }

        found.Clock = new InterfaceClock(resolution, shift);
        found.HeaderText = header.ToArray();
        return found;
    }
}
