using Google.Protobuf;
using Google.Protobuf.Reflection;
using Grpc.Core;
using Microsoft.Extensions.Logging;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.Service.Tests.Telemetry;

namespace Portwitness.Service.Tests.Access;

/// <summary>Names of files that lead elsewhere, in every text of every call: nothing of this machine is read, and no secret is logged.</summary>
public sealed class HostilePathTests
{
    private const string Marker = "tarnholt-secret-of-this-machine";

    private static string[] Tricks(string folder) =>
    [
        $"{folder}/secret.txt", $"../../../../../../../..{folder}/secret.txt", $"file://{folder}/secret.txt", $"{folder}/secret.txt\0.jsonl", $"..\\..\\{folder}\\secret.txt",
        $"%2e%2e%2f{folder}/secret.txt", $"{folder}/link", "/proc/self/environ", "/dev/stdin", "|cat /etc/passwd", "$(cat /etc/passwd)",
    ];

    [Fact]
    public async Task EveryTextOfEveryCall_ReadsNothingOfThisMachine()
    {
        using KeptLogs logs = new();
        await using AccessHost host = await AccessHost.StartAsync(logs: logging => logging.SetMinimumLevel(LogLevel.Trace).AddProvider(logs));
        await File.WriteAllTextAsync(Path.Combine(host.Folder, "secret.txt"), Marker);
        File.CreateSymbolicLink(Path.Combine(host.Folder, "link"), Path.Combine(host.Folder, "secret.txt"));
        string[] before = [.. Directory.GetFileSystemEntries(host.Folder).Order()];
        ChannelBase channel = host.Connect();
        int answers = 0;
        foreach (MethodDescriptor method in Witness.Descriptor.Methods)
        {
            foreach (string trick in Tricks(host.Folder))
            {
                using AsyncDuplexStreamingCall<byte[], byte[]> call = Call.Open(channel, Witness.Descriptor.FullName, method.Name);
                Status end = await Call.StatusOfAsync(async () =>
                {
                    await call.RequestStream.WriteAsync(Fill(method.InputType, trick, 0).ToByteArray());
                    await call.RequestStream.CompleteAsync();
                    while (await call.ResponseStream.MoveNext(CancellationToken.None))
                    {
                        answers++;
                        System.Text.Encoding.UTF8.GetString(call.ResponseStream.Current).Should().NotContain(Marker).And.NotContain("root:x:");
                    }
                });
                end.StatusCode.Should().NotBe(StatusCode.Internal).And.NotBe(StatusCode.Unknown, $"{method.Name}, {trick}: {end.Detail}");
                end.Detail.Should().NotContain(Marker).And.NotContain("root:x:");
            }
        }

        answers.Should().BePositive();
        Directory.GetFileSystemEntries(host.Folder).Where(static file => !file.Contains("reports.db", StringComparison.Ordinal))
            .Should().BeEquivalentTo(before.Where(static file => !file.Contains("reports.db", StringComparison.Ordinal)), "nothing is written where a client says");
        logs.Messages.Should().NotContain(message => message.Contains(Marker, StringComparison.Ordinal));
    }

    // Field number 0, an endless varint, a length beyond the end (protobuf.dev, "Encoding").
    [Theory]
    [InlineData("00")]
    [InlineData("FFFFFFFFFFFFFFFFFFFFFFFF")]
    [InlineData("0AFFFFFF7F41")]
    public async Task MalformedMessage_IsRefused_ByEveryCall(string hex)
    {
        await using AccessHost host = await AccessHost.StartAsync();
        ChannelBase channel = host.Connect();
        foreach (MethodDescriptor method in Witness.Descriptor.Methods)
        {
            using AsyncDuplexStreamingCall<byte[], byte[]> call = Call.Open(channel, Witness.Descriptor.FullName, method.Name);

            Status end = await Call.StatusOfAsync(async () =>
            {
                await call.RequestStream.WriteAsync(Convert.FromHexString(hex));
                await call.RequestStream.CompleteAsync();
                await call.ResponseStream.MoveNext(CancellationToken.None);
            });

            end.Should().Be(new Status(StatusCode.InvalidArgument, "A message cannot be read: it is none of this contract."), method.Name);
        }

        (await Call.StatusOfAsync(async () => await host.Client().ListSinksAsync(new ListSinksRequest()))).StatusCode.Should().Be(StatusCode.OK);
    }

    // RFC 1951 packs a thousand spaces into a byte: what is unpacked counts.
    [Fact]
    public async Task PackedMessage_ThatGrowsBeyondTheLimit_IsRefused()
    {
        await using AccessHost host = await AccessHost.StartAsync();
        Metadata packed = new() { { "grpc-internal-encoding-request", "gzip" } };

        Status end = await Call.StatusOfAsync(async () => await host.Client().ReadLabelAsync(new ReadLabelRequest { Text = new string(' ', 50_000_000) }, packed));

        end.StatusCode.Should().Be(StatusCode.ResourceExhausted, end.Detail);
    }

    [Fact]
    public async Task Secrets_AreInNoLog_AtAnyLevel()
    {
        using KeptLogs logs = new();
        await using AccessHost host = await AccessHost.StartAsync("tls clients tokens", logs: logging => logging.SetMinimumLevel(LogLevel.Trace).AddProvider(logs));
        string token = await host.NewTokenAsync(TokenRole.Submit);
        string wrong = "pw_" + new string('7', 64);
        Witness.WitnessClient client = host.Client(host.Authority.Sign("bench", TestAuthority.ForClients));

        await client.ListSinksAsync(new ListSinksRequest(), AccessHost.Bearer(token));
        (await Call.StatusOfAsync(async () => await client.ListSinksAsync(new ListSinksRequest(), AccessHost.Bearer(wrong)))).StatusCode.Should().Be(StatusCode.Unauthenticated);
        (await Call.StatusOfAsync(async () => await client.RetrySubmissionAsync(new RetrySubmissionRequest(), AccessHost.Bearer(token)))).StatusCode.Should().Be(StatusCode.PermissionDenied);

        string key = (await File.ReadAllLinesAsync(host.KeyFile))[1];
        logs.Messages.Should().NotBeEmpty();
        foreach (string message in logs.Messages)
        {
            message.Should().NotContainAny(token, token[3..], wrong, wrong[3..], key, "Bearer ");
        }
    }

    // Every text field, at any depth, and bytes as well.
    private static IMessage Fill(MessageDescriptor type, string text, int depth)
    {
        IMessage message = type.Parser.ParseFrom(ByteString.Empty);
        foreach (FieldDescriptor field in type.Fields.InFieldNumberOrder())
        {
            object? value = field.FieldType switch
            {
                FieldType.String => text,
                FieldType.Bytes => ByteString.CopyFromUtf8(text),
                FieldType.Message when depth < 4 && !field.IsMap => Fill(field.MessageType, text, depth + 1),
                _ => null,
            };
            if (value is null || (field.RealContainingOneof is { } oneof && oneof.Accessor.GetCaseFieldDescriptor(message) is not null))
            {
                continue;
            }

            if (field.IsRepeated)
            {
                ((System.Collections.IList)field.Accessor.GetValue(message)).Add(value);
            }
            else
            {
                field.Accessor.SetValue(message, value);
            }
        }

        return message;
    }
}
