using System.Text.Json;
using Portwitness.Captures.Input;
using Portwitness.PowerDelivery.Framing;

namespace Portwitness.Captures.JsonLines;

/// <summary>What a line states of a frame that broke, and of how well a frame was sent.</summary>
internal sealed partial class RecordLine
{
    private const int BrokeMember = 14;
    private const int BitMember = 15;
    private const int BrokeAtMember = 16;
    private const int PartMember = 17;
    private const int FirstQualityMember = 18;
    private const int DriftMember = 20;
    private const int MemberCount = 25;
    private const int MaxPartDigits = 2 * (CaptureLimits.MaximumMessageBytes + MessageCrc.Length);

    private readonly int?[] _quality = new int?[MemberCount - FirstQualityMember];
    private FrameBreak _break;
    private int? _bit;
    private long? _brokeAt;
    private byte[] _part = [];

    /// <summary>How well the frame was sent; nothing is stated when the line does not say.</summary>
    public FrameQuality Quality => new(_quality[0], _quality[1], _quality[2], _quality[3], _quality[4], _quality[5], _quality[6]);

    /// <summary>The frame that broke; null when the line states none.</summary>
    public BrokenFrameRecord? BrokenAt(long timeUs, long line) => _break == FrameBreak.None
        ? null
        : new BrokenFrameRecord(timeUs, line, _break) { Bit = _bit, BrokeAtUs = _brokeAt, Sop = _sop, Part = [.. _part], Quality = Quality };

    private void BeginFrame()
    {
        Array.Clear(_quality);
        (_break, _bit, _brokeAt, _part) = (FrameBreak.None, null, null, []);
    }

    private void TakeFrame(ref Utf8JsonReader json, int member)
    {
        switch (member)
        {
            case BrokeMember:
                if (json.TokenType != JsonTokenType.String || !FrameBreaks.TryParse(json.GetString()!, out _break))
                {
                    Invalid(ref json, member, $"one of {string.Join(", ", FrameBreaks.All)}", "The frame was left out.");
                }

                break;
            case BitMember:
                _bit = Number(ref json, member, 0);
                break;
            case BrokeAtMember:
                TakeBrokeAt(ref json);
                break;
            case PartMember:
                TakePart(ref json);
                break;
            default:
                _quality[member - FirstQualityMember] = Number(ref json, member, member == DriftMember ? int.MinValue : 0);
                break;
        }
    }

    private int? Number(ref Utf8JsonReader json, int member, int least)
    {
        if (json.TokenType == JsonTokenType.Number && json.TryGetInt32(out int value) && value >= least)
        {
            return value;
        }

        Invalid(ref json, member, "a whole number of 32 bits, not negative except for a drift");
        return null;
    }

    private void TakeBrokeAt(ref Utf8JsonReader json)
    {
        if (json.TokenType == JsonTokenType.Number && json.TryGetInt64(out long time) && time is >= 0 and <= CaptureLimits.MaximumTimeUs)
        {
            _brokeAt = time;
            return;
        }

        Invalid(ref json, BrokeAtMember, "a time in microseconds");
    }

    private void TakePart(ref Utf8JsonReader json)
    {
        ReadOnlySpan<byte> digits = json.ValueSpan;
        if (json.TokenType == JsonTokenType.String && digits.Length % 2 == 0 && digits.Length <= MaxPartDigits
            && !digits.ContainsAnyExcept(HexText.Digits))
        {
            _part = new byte[digits.Length / 2];
            Convert.FromHexString(digits, _part, out _, out _);
            return;
        }

        Invalid(ref json, PartMember, "the bytes that were read as hex digits");
    }

    private void KeepFrameStrays(ReadOnlySpan<byte> text)
    {
        for (int member = BitMember; member < MemberCount; member++)
        {
            bool counts = Has(BrokeMember) || (member >= FirstQualityMember && (Has(HexMember) || Has(SignalMember)));
            if (!counts)
            {
                KeepAsExtra(member, text);
            }
        }
    }
}
