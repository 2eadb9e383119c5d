using Google.Protobuf;

namespace Portwitness.Service.Tests.Telemetry;

/// <summary>A protobuf message without its definition: fields by number, as the encoding has them.</summary>
internal sealed class WireMessage
{
    private readonly List<(int Field, ulong Number, ByteString Bytes)> _fields = [];

    public WireMessage(ByteString message)
    {
        CodedInputStream input = message.CreateCodedInput();
        while (input.ReadTag() is not 0 and var tag)
        {
            (ulong Number, ByteString Bytes) value = WireFormat.GetTagWireType(tag) switch
            {
                WireFormat.WireType.Varint => (input.ReadUInt64(), ByteString.Empty),
                WireFormat.WireType.Fixed64 => (input.ReadFixed64(), ByteString.Empty),
                WireFormat.WireType.Fixed32 => (input.ReadFixed32(), ByteString.Empty),
                WireFormat.WireType.LengthDelimited => (0UL, input.ReadBytes()),
                var type => throw new InvalidDataException($"Wire type {type}"),
            };
            _fields.Add((WireFormat.GetTagFieldNumber(tag), value.Number, value.Bytes));
        }
    }

    public bool Has(int field) => _fields.Any(one => one.Field == field);

    /// <summary>A varint or a fixed number; 0 when it is left out.</summary>
    public long Number(int field) => (long)_fields.LastOrDefault(one => one.Field == field).Number;

    public double Double(int field) => BitConverter.UInt64BitsToDouble((ulong)Number(field));

    public ByteString Bytes(int field) => _fields.LastOrDefault(one => one.Field == field).Bytes ?? ByteString.Empty;

    public string Text(int field) => Bytes(field).ToStringUtf8();

    public WireMessage Message(int field) => new(Bytes(field));

    public IEnumerable<WireMessage> Messages(int field) =>
        _fields.Where(one => one.Field == field).Select(one => new WireMessage(one.Bytes));

    /// <summary>Messages within messages, by the number of each field on the way.</summary>
    public IEnumerable<WireMessage> Messages(int field, params int[] further) =>
        further.Aggregate(Messages(field), (messages, next) => messages.SelectMany(message => message.Messages(next)));
}
