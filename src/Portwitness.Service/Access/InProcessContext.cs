using Grpc.Core;

namespace Portwitness.Service.Access;

/// <summary>What a method of the service is told of a call from its own process.</summary>
internal sealed class InProcessContext(string method, CallOptions options, CancellationToken cancellation) : ServerCallContext
{
    protected override string MethodCore => method;

    protected override string HostCore => "in-process";

    protected override string PeerCore => "in-process";

    protected override DateTime DeadlineCore => options.Deadline ?? DateTime.MaxValue;

    protected override Metadata RequestHeadersCore => options.Headers ?? Metadata.Empty;

    protected override CancellationToken CancellationTokenCore => cancellation;

    protected override Metadata ResponseTrailersCore { get; } = [];

    protected override Status StatusCore { get; set; }

    protected override WriteOptions? WriteOptionsCore { get; set; }

    protected override AuthContext AuthContextCore { get; } = new(null, []);

    protected override ContextPropagationToken CreatePropagationTokenCore(ContextPropagationOptions? options) =>
        throw new NotSupportedException("The service calls no other one.");

    protected override Task WriteResponseHeadersAsyncCore(Metadata responseHeaders) => Task.CompletedTask;
}
