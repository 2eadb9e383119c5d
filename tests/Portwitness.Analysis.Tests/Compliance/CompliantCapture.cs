using System.Buffers.Binary;
using System.Globalization;
using System.Text;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.Units;
using Portwitness.Testing.Compliance;

namespace Portwitness.Analysis.Tests.Compliance;

/// <summary>
/// What a compliant source says in a whole capture: its lists, a contract, Revision, Source_Info and
/// Source_Capabilities_Extended. EPR lists are sent unchunked. Other tests may add to it.
/// </summary>
public sealed class CompliantCapture
{
    private readonly StringBuilder _text = new();
    private long _time;
    private int _sourceId;
    private int _sinkId;

    /// <summary>The header of a capture with the source's cable.</summary>
    public CompliantCapture(CompliantSource source, bool stated)
    {
        string cable = stated
            ? $",\"cable\":{{\"kind\":\"detachable\",\"current_a\":{source.CableMilliamperes / 1000},\"epr\":{(source.IsEpr && source.CableMilliamperes == 5000 ? "true" : "false")}}}"
            : "";
        _text.Append(CultureInfo.InvariantCulture, $"{{\"capture\":1,\"port\":\"C1\",\"in_use\":[\"C1\"]{cable}}}\n");
        _text.Append("{\"t\":0,\"event\":\"attach\"}\n");
    }

    public string Text => _text.ToString();

    /// <summary>The whole conversation of a source that can tell everything of itself.</summary>
    public static string Of(CompliantSource source, bool guaranteed)
    {
        CompliantCapture capture = new(source, true);
        int revision = source.Edition == Editions.R20 ? 1 : 2;
        capture.List(source.Spr, false, revision);
        capture.Contract(revision);
        capture.List(source.Spr, false, revision);
        if (revision == 1)
        {
            return capture.Text;
        }

        capture.FromSource(MessageKind.Revision, [source.Edition switch
        {
            Editions.R30 => RevisionObject.Create(3, 0, 2, 0).Raw,
            Editions.R31 => RevisionObject.Create(3, 1, 1, 8).Raw,
            _ => RevisionObject.Create(3, 2, 1, 1).Raw,
        }]);
        if (source.Edition != Editions.R30)
        {
            capture.Info(source, source.Spr, guaranteed);
        }

        if (source.IsEpr)
        {
            capture.List(source.EprInSprMode, true, revision);
            capture.Info(source, source.EprInSprMode, guaranteed);
        }

        capture.Ratings(source);
        return capture.Text;
    }

    private void List(IReadOnlyList<uint> words, bool epr, int revision)
    {
        MessageKind kind = epr ? MessageKind.EPRSourceCapabilities : MessageKind.SourceCapabilities;
        List<byte> bytes = [.. Header(kind, epr ? 0 : words.Count, true, revision)];
        if (epr)
        {
            bytes.AddRange(Word(ExtendedHeader.Create(false, 0, false, 4 * words.Count).Raw));
        }

        foreach (uint word in words)
        {
            bytes.AddRange(Object(word));
        }

        Send(bytes);
    }

    private void Contract(int revision)
    {
        Send([.. Header(MessageKind.Request, 1, false, revision), .. Object(FixedVariableRequest.Create(
            1, Current.FromMilliamperes(100), Current.FromMilliamperes(100)).Raw)]);
        Send([.. Header(MessageKind.Accept, 0, true, revision)]);
        Send([.. Header(MessageKind.PSRDY, 0, true, revision)]);
    }

    // Integer parts (6.4.11): reported is the largest V x I of the fixed supplies.
    private void Info(CompliantSource source, IReadOnlyList<uint> words, bool guaranteed)
    {
        long reported = words.Where(word => word >> 30 == 0).Max(word =>
            (long)new FixedSourceSupply(word).Voltage.Millivolts * new FixedSourceSupply(word).MaximumCurrent.Milliamperes) / 1_000_000;
        FromSource(MessageKind.SourceInfo, [SourceInfoObject.Create(
            guaranteed, Watts(source.Maximum), Watts(source.Present), Watts((int)reported * 1000)).Raw]);
    }

    private void Ratings(CompliantSource source)
    {
        byte[] block = new byte[25];
        block[23] = (byte)(Math.Min(source.Maximum, 100_000) / 1000);
        block[24] = (byte)(source.IsEpr ? source.Maximum / 1000 : 0);
        Send([.. Header(MessageKind.SourceCapabilitiesExtended, 0, true, 2), .. Word(ExtendedHeader.Create(false, 0, false, 25).Raw), .. block]);
    }

    private void FromSource(MessageKind kind, uint[] words) =>
        Send([.. Header(kind, words.Length, true, 2), .. words.SelectMany(Object)]);

    private byte[] Header(MessageKind kind, int count, bool source, int revision)
    {
        int id = source ? _sourceId++ % 8 : _sinkId++ % 8;
        return Word(MessageHeader.Create(kind, count, id, source, source, revision).Raw);
    }

    private void Send(IReadOnlyCollection<byte> bytes)
    {
        _time += 5000;
        _text.Append(CultureInfo.InvariantCulture, $"{{\"t\":{_time},\"sop\":\"SOP\",\"hex\":\"{Convert.ToHexString([.. bytes])}\"}}\n");
    }

    private static Power Watts(int milliwatts) => Power.FromMilliwatts(milliwatts / 1000 * 1000);

    private static byte[] Word(ushort value)
    {
        byte[] bytes = new byte[2];
        BinaryPrimitives.WriteUInt16LittleEndian(bytes, value);
        return bytes;
    }

    private static byte[] Object(uint value)
    {
        byte[] bytes = new byte[4];
        BinaryPrimitives.WriteUInt32LittleEndian(bytes, value);
        return bytes;
    }
}
