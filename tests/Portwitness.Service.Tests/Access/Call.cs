using Grpc.Core;

namespace Portwitness.Service.Tests.Access;

/// <summary>Calls any method by its name, and tells how it ended.</summary>
internal static class Call
{
    private static readonly Marshaller<byte[]> Bytes = Marshallers.Create(static bytes => bytes, static bytes => bytes);

    /// <summary>Begins a call; on the wire one of a single message is a stream of one.</summary>
    public static AsyncDuplexStreamingCall<byte[], byte[]> Open(ChannelBase channel, string service, string method, Metadata? headers = null) =>
        channel.CreateCallInvoker().AsyncDuplexStreamingCall(
            new Method<byte[], byte[]>(MethodType.DuplexStreaming, service, method, Bytes, Bytes), null, new CallOptions(headers));

    /// <summary>Sends one empty message, and reads to the end.</summary>
    public static async Task<Status> MethodAsync(ChannelBase channel, string service, string method, Metadata? headers = null)
    {
        using AsyncDuplexStreamingCall<byte[], byte[]> call = Open(channel, service, method, headers);
        try
        {
            await call.RequestStream.WriteAsync([]);
            await call.RequestStream.CompleteAsync();
        }
        catch (Exception exception) when (exception is RpcException or InvalidOperationException)
        {
            // Refused before it was sent; the status says why.
        }

        return await StatusOfAsync(async () =>
        {
            while (await call.ResponseStream.MoveNext(CancellationToken.None))
            {
            }
        });
    }

    /// <summary>How a call ends.</summary>
    public static async Task<Status> StatusOfAsync(Func<Task> call)
    {
        try
        {
            await call();
            return Status.DefaultSuccess;
        }
        catch (RpcException exception)
        {
            return exception.Status;
        }
    }
}
